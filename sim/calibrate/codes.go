package calibrate

// A Reason is a stable code that says why nothing is tuned. [Reasons] describes each.
type Reason string

// The reasons.
const (
	TooFew      Reason = "too-few-periods"
	NoUse       Reason = "no-use"
	NeverWaters Reason = "never-waters"
)

// leastPeriods is the number of fitted periods below which nothing is tuned: two
// parameters and as many degrees of freedom again, and one more. A choice of ours.
const leastPeriods = 5

// EnoughPeriods is the number of periods from which the schedule is searched and
// statistics mean something. Source: twelve monthly or bimonthly periods, customary for
// calibrations to bills.
const EnoughPeriods = 12

// A ReasonDoc describes a reason.
type ReasonDoc struct {
	Reason Reason
	Doc    string
}

// Reasons returns the description of every reason.
func Reasons() []ReasonDoc {
	return []ReasonDoc{
		{TooFew, "fewer than five periods can be fitted"},
		{NoUse, "the meter shows no use in any fitted period"},
		{NeverWaters, "the replay waters in no fitted period"},
	}
}

// A Finding is a stable code of what the meter cannot teach, or what is odd about the
// fit. [Findings] describes each.
type Finding string

// The findings.
const (
	baseOrLeak     Finding = "base-or-leak"
	flowOrMinutes  Finding = "flow-or-minutes"
	lossesUnseen   Finding = "losses-unseen"
	plantsUnseen   Finding = "plants-unseen"
	flowOrK        Finding = "flow-or-plants"
	SameEveryDay   Finding = "same-every-day"
	noQuiet        Finding = "no-quiet-period"
	FewPeriods     Finding = "few-periods"
	noHeldOut      Finding = "nothing-held-out"
	heldOutWorse   Finding = "held-out-not-better"
	AtBound        Finding = "at-bound"
	UseWhileOff    Finding = "use-while-off"
	ScheduleUntold Finding = "schedule-not-searched"
)

// A FindingDoc describes a finding.
type FindingDoc struct {
	Finding Finding
	Doc     string
}

// Findings returns the description of every finding.
func Findings() []FindingDoc {
	return []FindingDoc{
		{baseOrLeak, "a constant leak and base use add up in every period alike: only their sum is known"},
		{flowOrMinutes, "a meter shows flow times minutes: the factor may be due to flow, to area at the same rate, or to run times"},
		{lossesUnseen, "spray loss, overspray, broken heads and runoff change where water goes, not how much the meter shows"},
		{plantsUnseen, "other plant coefficients give the same metered volume to the last digit: the meter says nothing about plants or soil"},
		{flowOrK, "plant coefficients change the metered volume, but hardly otherwise than the flow does: they are not tuned"},
		{SameEveryDay, "the replay uses nearly the same a day in all periods, which no meter tells from base use or a leak: those stay"},
		{noQuiet, "the replay waters in every fitted period, so base use rests on how use differs between periods"},
		{FewPeriods, "fewer than 12 periods are fitted: statistics of so few mean little"},
		{noHeldOut, "too few periods to hold some out: nothing says how well the values do on other periods"},
		{heldOutWorse, "the held-out periods do not fit clearly better than untuned: keep the scenario's values"},
		{AtBound, "a value is at a bound, so something else is wrong"},
		{UseWhileOff, "the meter shows clearly more use than the constant part in periods in which the replay waters nothing"},
		{ScheduleUntold, "too few periods to search for months off and dated changes"},
	}
}

package costsfile

// Template is a costs file with every key, to edit. Its prices are invented.
const Template = `# What a program costs, for: loamledger portfolio evaluate RESULTS --costs FILE
# A number in doubt has three values, as in {low: 2%, mid: 3%, high: 5%}.
version: 1
name: Controller rebate, Juniper Valley    # an example, like every price here
currency: USD                # of every amount
units: us                    # of what is printed: us or si
first_year: 2027             # in which the measures begin to save

discount: {low: 2%, mid: 3%, high: 5%}      # a year, real
life: {low: 8 years, mid: 10 years, high: 12 years}
decay: {low: 0%, mid: 5%, high: 15%}        # of the saving, each year
net_to_gross: {low: 40%, mid: 70%, high: 110%}  # share of the saving that the program causes
saving: 100%                 # verified saving as a share of the simulated one
losses: 8%                   # of the supply, before the meter
fixed_cost: 2000             # of the program, however many take part

avoided_cost:                # what the supplier does not spend per volume not supplied
  per: AF                    # AF, HCF, kgal, gal, ft3, m3 or L
  years: {2027: 1100, 2028: 1150, 2029: 1200}   # no gaps; the last one goes on with growth
  growth: 1%                 # a year, real
  factor: {low: 80%, mid: 100%, high: 120%}     # how far these may be off

# What participants pay for water; not used if the results have bills (money in the program).
retail: {per: HCF, price: {low: 4.00, mid: 4.60, high: 5.50}}
# What others gain from saved water, for the societal test. Without it there is none.
externality: {per: AF, price: 60}

threshold: 5%                # an account saves or rises if its use changes by more
smallest_cell: 10            # nothing is printed of fewer accounts
seed: 1                      # of the bills and the bounds

# Who gets an offer first. Without targets no smaller group is tried.
targets:
  rank_by: beyond_need       # bill, beyond_need (bill less requirement) or ratio (bill ÷ requirement)
  rank_years: 2001 to 2005   # of the bills
  score_years: 2006 to 2012  # later years, by which the choice is judged
  bill_error: 15%            # of a year's simulated bill, one standard deviation; not used with --bills FILE
  area_error: 10%            # how far the irrigated area is known, one standard deviation

measures:
  - measure: monthly settings   # as in the results
    equipment: 0             # and installation, per participant, whoever pays
    upkeep: 10               # a year, per participant
    admin: 35                # of the program, per participant
    rebate: 0                # per participant; without uptake every account takes part
  - measure: weather controller
    equipment: {low: 180, mid: 240, high: 320}
    upkeep: {low: 0, mid: 12, high: 30}
    admin: 45
    rebate: 100
    life: {low: 7 years, mid: 10 years, high: 12 years}   # life, decay, net_to_gross, saving: its own
    uptake:                  # share of accounts that take part, by rebate
      - {rebate: 0, share: 0.5%}
      - {rebate: 50, share: 2%}
      - {rebate: 100, share: 5%}
      - {rebate: 200, share: 9%}
  - measure: both
    combines: [monthly settings, weather controller]   # both are compared with the sum of the two
    equipment: {low: 180, mid: 240, high: 320}
    upkeep: 20
    admin: 60
    rebate: 100
    uptake: [{rebate: 50, share: 2%}, {rebate: 100, share: 5%}]
`

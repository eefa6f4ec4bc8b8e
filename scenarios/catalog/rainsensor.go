package catalog

// A RainSensor is what is known of rain sensors in the field.
type RainSensor struct {
	MissRate  Figure // share of the rains above the set point that it misses
	TripShare Figure // real trip depth as a share of the set point
	DryOut    Figure // time on hold after rain [d]
	SetPoint  Figure // set point advised [mm]
	Homes     Figure // share of homes that have one
	Working   Figure // share of these that work
}

const (
	sensorTrial = "our choice after expanding-disk sensors over nearly five years, Florida (Meeks et al. 2012): "
	sensorHomes = "survey of 157 homes (Haley and Dukes)"
)

// RainSensors returns the figures.
func RainSensors() RainSensor {
	return RainSensor{
		MissRate: guess(0.25, 0.03, 0.73, sensorTrial+"accuracy 27% to 97%"),
		TripShare: guess(0.7, 0.25, 1.0, sensorTrial+
			"tripped at 1.9 mm set at 3 mm; 1.6, 3.8, 4.3 and 5.8 mm set at 6 mm; 6.6 mm set at 13 mm"),
		DryOut: guess(2, 0.25, 4, "University of Florida: off for a couple of days or more; City of Santa Barbara: a few hours to 3 or 4 days; "+
			"our choice"),
		SetPoint: inches(0.5, 0.5, 0.75, GeneralTable, "Dukes and Haman, UF/IFAS AE221: 0.5 to 0.75 in"),
		Homes:    measured(0.47, 0, 0, sensorHomes),
		Working:  measured(0.54, 0, 0, sensorHomes),
	}
}

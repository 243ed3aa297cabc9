package home

import "holdover/loads/units"

// Care is what a circuit gets in an outage.
type Care string

// The three kinds of care.
const (
	Keep   Care = "keep"   // supplied throughout
	Rotate Care = "rotate" // takes turns with the others, may wait
	Shed   Care = "shed"   // left off
)

// A Circuit is one branch circuit or appliance, its profile's fields filled in under its own.
type Circuit struct {
	Name        string          `key:"name" required:"true" doc:"what the panel label says"`
	Like        string          `key:"like" doc:"profile it starts from; see holdover profiles"`
	Care        Care            `key:"care" one:"keep,rotate,shed" doc:"keep, rotate or shed"`
	Count       int             `key:"count" range:"1,1000" doc:"how many of them on this circuit"`
	Volts       units.Volts     `key:"volts" range:"100,250" doc:"120, 240 or 230"`
	Running     units.Watts     `key:"running" range:"0,200000" motor:"true" doc:"steady draw when on; 1/2 hp of a motor is what the wiring code's motor table gives for it"`
	RunningAmps units.Amps      `key:"running_amps" range:"0,1000" doc:"steady current when on, in place of running"`
	Standby     units.Watts     `key:"standby" range:"0,20000" doc:"draw when idle"`
	PowerFactor float64         `key:"power_factor" range:"0.05,1" doc:"of the steady draw, 0.05 to 1"`
	Start       Start           `key:"start" doc:"first moments: {times: 4}, {amps: 60 A}, {code: G, hp: 0.5}, {watts: 800 W} or none"`
	StartTime   units.Seconds   `key:"start_seconds" range:"0,120" doc:"how long a start lasts"`
	Use         Use             `key:"use" doc:"how much of the time it is on: {duty: 0.35}, {hours_per_day: 3 h}, {minutes_per_day: 40 min}, {hours: [24 shares]}, heating or cooling"`
	Output      units.Watts     `key:"output" range:"0,500000" doc:"heat delivered or removed at full running"`
	Fallback    float64         `key:"fallback_duty" range:"0,1" doc:"duty of heating or cooling when home.heat_loss is not given"`
	Breaker     units.Amps      `key:"breaker" range:"1,400" doc:"rating of its breaker"`
	Nameplate   units.Nameplate `key:"nameplate" range:"1,1000000" doc:"what the plate of one says, VA or W, for the calculated load"`
	Class       string          `key:"class" one:"range,cooktop,oven,dryer,water-heater,fastened,space-heat,air-conditioning,heat-pump,supplemental-heat,motor,vehicle,lighting,receptacles,other" doc:"what the calculated load counts it as"`
	Controlled  int             `key:"separately_controlled" range:"1,100" doc:"how many separately controlled heaters it feeds"`
	LockedOut   bool            `key:"locked_out" doc:"a heat pump that cannot run together with its supplemental heat"`
	Added       bool            `key:"added" doc:"not there yet: it comes with this job"`
	Leg         string          `key:"leg" one:"A,B,auto" doc:"A, B or auto"`
	SharesWith  string          `key:"shares_neutral_with" doc:"the other circuit of a multiwire pair"`
	Needs       Needs           `key:"needs" doc:"what it asks of the supply"`
	Heater      *Heater         `key:"heater" doc:"a gas water heater's own figures"`
	Tank        Tank            `key:"tank" doc:"hot water it holds: {holds: 50 gal, set_to: 120 F, inlet: 58 F}"`
	Pit         Pit             `key:"pit" doc:"what a pump keeps empty: {room: 15 gal, inflow: 60 gal/h}"`

	HP float64 // of its motor, where its running draw was given so; else 0
}

// Needs is what a circuit asks of its supply.
type Needs struct {
	Wave           Wave          `key:"wave" one:"sine,any" doc:"sine or any"`
	Gap            units.Seconds `key:"gap" range:"0,86400" bare_from:"1" doc:"longest break in supply it rides through"`
	EarthedNeutral bool          `key:"earthed_neutral" doc:"burner's flame sensing needs an earthed neutral"`
	CanWait        units.Hours   `key:"can_wait" range:"0,720" doc:"how long it can be without supply"`
	Corrected      bool          `key:"corrected_supply" doc:"its power supply is power-factor corrected"`
}

// A Heater is a gas water heater's own draw: what its igniter, fan and board take while it fires, what they take at rest,
// and what its freeze guard takes in the cold.
type Heater struct {
	Firing      units.Watts   `key:"firing" range:"0,2000" doc:"draw while it burns"`
	Standby     units.Watts   `key:"standby" range:"0,500" doc:"draw at rest"`
	FreezeGuard units.Watts   `key:"freeze_guard" range:"0,2000" doc:"draw of its frost heaters when on"`
	GuardFrom   units.Celsius `key:"guard_from" range:"-20,20" doc:"temperature below which the frost heaters cut in"`
	GuardFull   units.Celsius `key:"guard_full" range:"-60,10" doc:"temperature at which they never rest"`
	Draw        units.Minutes `key:"draw" range:"0,1440" doc:"minutes a day it burns"`
	StandsIn    Spot          `key:"stands_in" one:"indoors,garage,outdoors" doc:"indoors, garage or outdoors"`
	GarageTemp  units.Celsius `key:"garage_temp" range:"-60,60" doc:"coldest the place gets where it stands"`
	GasInput    units.Watts   `key:"gas_input" range:"0,500000" doc:"gas burnt at full fire"`
}

// Inside says whether it stands in the house, as it does where nobody says otherwise.
func (h *Heater) Inside() bool { return h.StandsIn == "" || h.StandsIn == Indoors }

// A Tank is the hot water that a water heater holds.
type Tank struct {
	Holds units.Litres  `key:"holds" range:"1,5000" doc:"water it holds"`
	SetTo units.Celsius `key:"set_to" range:"20,95" doc:"temperature it is kept at"`
	Inlet units.Celsius `key:"inlet" range:"0,40" doc:"temperature of the cold water"`
}

// A Pit is what a sump pump keeps empty.
type Pit struct {
	Room   units.Litres        `key:"room" range:"0.1,100000" doc:"water it takes from where the pump starts to the brim"`
	Inflow units.LitresPerHour `key:"inflow" range:"0,1000000" doc:"water that runs in on the worst night"`
}

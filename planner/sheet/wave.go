package sheet

import "math"

// This file is the mathematics of a stepped wave: +V for a part of each half cycle, nothing for the rest of it, then −V. Its
// dead time is the share of each HALF cycle that it stands at zero, 0 ≤ dead < 1; a square wave has none. "25 % dead time" is
// said of the whole cycle too; here it never is. With D = 1 − dead, by Fourier's series of the wave:
//
//	Vrms = V·√D;  V1rms = V·(2√2/π)·sin(πD/2);  Vh/V1 = sin(hπD/2)/(h·sin(πD/2)) for odd h
//	distortion = √((Vrms/V1rms)² − 1)

// SteppedRMS is the RMS voltage of a stepped wave over its peak.
func SteppedRMS(dead float64) float64 { return math.Sqrt(1 - dead) }

// SteppedFundamental is the RMS voltage of its fundamental over its peak.
func SteppedFundamental(dead float64) float64 {
	return 2 * math.Sqrt2 / math.Pi * math.Sin(math.Pi/2*(1-dead))
}

// SteppedHarmonic is the size of odd harmonic h over the fundamental. Even ones are nothing.
func SteppedHarmonic(dead float64, h int) float64 {
	if h%2 == 0 {
		return 0
	}
	x := math.Pi / 2 * (1 - dead)
	return math.Abs(math.Sin(float64(h)*x) / (float64(h) * math.Sin(x)))
}

// SteppedDistortion is the total harmonic distortion of a stepped wave, as a share of its fundamental.
func SteppedDistortion(dead float64) float64 {
	ratio := SteppedRMS(dead) / SteppedFundamental(dead)
	return math.Sqrt(ratio*ratio - 1)
}

// LeastDistortion is the dead time at which a stepped wave is distorted least, and that distortion: about 0.258 and 0.2896.
// There D/sin²(πD/2) is least, which is where tan x = 2x with x = πD/2; x is found by halving.
func LeastDistortion() (dead, distortion float64) {
	low, high := 1.0, math.Pi/2-1e-6 // tan x − 2x is below zero at the first and above it at the second
	for range 60 {
		middle := (low + high) / 2
		if math.Tan(middle) < 2*middle {
			low = middle
		} else {
			high = middle
		}
	}
	dead = 1 - low*2/math.Pi
	return dead, SteppedDistortion(dead)
}

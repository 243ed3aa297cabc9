package sheet

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/dsp/fourier"
	"gopkg.in/yaml.v3"
)

func published(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	require.NoError(t, yaml.Unmarshal(text, into))
}

// The table of testdata/published/quasi-square.yaml, from mathematics.
func TestStepped_PublishedTable(t *testing.T) {
	var file struct {
		Tolerance float64
		Cases     []struct {
			Dead, RMS, Fundamental, Distortion float64
			Harmonics                          []float64
		}
		Least struct{ Conduction, Distortion float64 }
	}
	published(t, "quasi-square.yaml", &file)
	require.Len(t, file.Cases, 4)
	for _, c := range file.Cases {
		assert.InDelta(t, c.RMS, SteppedRMS(c.Dead), file.Tolerance)
		assert.InDelta(t, c.Fundamental, SteppedFundamental(c.Dead), file.Tolerance)
		assert.InDelta(t, c.Distortion, SteppedDistortion(c.Dead), file.Tolerance)
		for i, h := range []int{3, 5, 7} {
			assert.InDelta(t, c.Harmonics[i], SteppedHarmonic(c.Dead, h), file.Tolerance, "harmonic %d at %v", h, c.Dead)
		}
	}
	dead, least := LeastDistortion()
	assert.InDelta(t, file.Least.Conduction, 1-dead, 0.0005)
	assert.InDelta(t, file.Least.Distortion, least, file.Tolerance)
	for d := 0.0; d < 0.95; d += 0.001 {
		assert.GreaterOrEqual(t, SteppedDistortion(d), least-1e-12)
	}
}

// Another road: sample the wave, put it through gonum's discrete Fourier transform, and add the harmonics up.
func TestStepped_AgainstASampledWave(t *testing.T) {
	const samples = 1 << 16
	for _, dead := range []float64{0, 0.1, 0.25, 1.0 / 3, 0.5, 0.7, 0.9} {
		wave := make([]float64, samples)
		for i := range wave {
			phase := (float64(i) + 0.5) / samples * 2 // in half cycles
			within := math.Mod(phase, 1)
			if within >= dead/2 && within < 1-dead/2 {
				wave[i] = 1 - 2*math.Floor(phase)
			}
		}
		c := fourier.NewFFT(samples).Coefficients(nil, wave)
		size := func(h int) float64 { return 2 * math.Hypot(real(c[h]), imag(c[h])) / samples }
		sum := 0.0
		for h := 2; h < len(c)-1; h++ {
			sum += size(h) * size(h)
		}
		assert.InDelta(t, SteppedDistortion(dead), math.Sqrt(sum)/size(1), 5e-4, "distortion at %v", dead)
		assert.InDelta(t, SteppedFundamental(dead), size(1)/math.Sqrt2, 1e-4, "fundamental at %v", dead)
		for _, h := range []int{2, 3, 4, 5, 7, 9, 11} {
			assert.InDelta(t, SteppedHarmonic(dead, h), size(h)/size(1), 1e-3, "harmonic %d at %v", h, dead)
		}
	}
}

package main

import (
	"fmt"
	"strings"

	"castweek/metal"
	"castweek/metal/measure"

	"github.com/spf13/cobra"
)

type chargeFlags struct {
	alloy, wax, waxDensity, resin, resinDensity, volume, density, button, loss, folder string
	asJSON                                                                             bool
}

// chargeMetal is the metal of a charge line by line, in g.
type chargeMetal struct {
	Patterns float64 `json:"patterns"`
	Button   float64 `json:"button"`
	MeltLoss float64 `json:"melt_loss"`
	Rounding float64 `json:"rounding"`
	Total    float64 `json:"total"`
}

// chargeAnswer is the JSON answer of the verb.
type chargeAnswer struct {
	Schema  int         `json:"schema"`
	Volume  float64     `json:"pattern_volume_mm3"`
	Metal   chargeMetal `json:"metal_g"`
	Density float64     `json:"density_g_cm3"`
}

func chargeCmd(s *streams) *cobra.Command {
	var f chargeFlags
	c := &cobra.Command{
		Use:   "charge --alloy ALLOY --wax G --wax-density D --button RULE",
		Short: "say how much metal a pattern needs, without a job folder",
		Long: `Say how much metal patterns with their feeders and trunk need: their weight in
wax or resin, or their volume. What is of both materials is added up.`,
		Example: `  castweek charge --alloy "750 yellow" --wax 5.5g --wax-density 0.96 --button "10% added"
  castweek charge --alloy "925 silver" --resin 0.56g --resin-density 1.09 --button 12g
  castweek charge --alloy "750 yellow" --volume 6919mm3 --density 15.2 --button 0g`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return runCharge(s, f) },
	}
	c.Flags().StringVar(&f.alloy, "alloy", "", `alloy, such as "750 yellow"`)
	c.Flags().StringVar(&f.wax, "wax", "", "weight of the wax, such as 5.5g")
	c.Flags().StringVar(&f.waxDensity, "wax-density", "", "density of the wax in g/cm³, such as 0.96")
	c.Flags().StringVar(&f.resin, "resin", "", "weight of the resin, such as 0.56g")
	c.Flags().StringVar(&f.resinDensity, "resin-density", "", "density of the resin in g/cm³, such as 1.09")
	c.Flags().StringVar(&f.volume, "volume", "", "volume of the patterns, such as 6919mm3")
	c.Flags().StringVar(&f.density, "density", "", "density of the alloy in g/cm³, where it was measured")
	c.Flags().StringVar(&f.button, "button", "", `"10% added", "10% of total", 12g; 0g is none and no minimum`)
	c.Flags().StringVar(&f.loss, "melt-loss", "", "share of the charge that melting takes, in % (default the house's; without a folder none)")
	c.Flags().StringVar(&f.folder, "folder", "", "job folder with the workshop's alloys, scale and rules")
	c.Flags().BoolVar(&f.asJSON, "json", false, "answer as JSON")
	return c
}

func runCharge(s *streams, f chargeFlags) error {
	h, err := openHouse(s, f.folder)
	if err != nil {
		return err
	}
	in, volume, err := h.chargeInput(f)
	if err != nil {
		return err
	}
	c := metal.NewCharge(in)
	if in.Loss == 0 {
		fmt.Fprintf(s.err, "no melt loss is counted; --melt-loss %s adds what is usual\n", strings.TrimSuffix(metal.DefaultLoss.String(), " %"))
	}
	if f.asJSON {
		return writeJSON(s.out, chargeAnswer{schemaVersion, decimals(float64(volume), 3),
			chargeMetal{inGrams(c.Patterns), inGrams(c.Button), inGrams(c.MeltLoss), inGrams(c.Rounding), inGrams(c.Total)}, decimals(float64(in.Density), 4)})
	}
	fmt.Fprintf(s.out, "%s at %s\n", volume, in.Density)
	for _, l := range []struct {
		name string
		g    measure.Milligram
	}{{"patterns", c.Patterns}, {"button (" + in.Button.String() + ")", c.Button}, {"melt loss (" + in.Loss.String() + ")", c.MeltLoss}, {"rounding to the scale", c.Rounding}} {
		fmt.Fprintf(s.out, "  %-24s %10s g\n", l.name, l.g.Number(3))
	}
	fmt.Fprintf(s.out, "  %-24s %10s g\n", "weigh out", inSteps(c.Total, in.Step))
	return nil
}

// chargeInput reads the flags. Nothing that weighs in is guessed: what is
// missing is asked for.
func (h *house) chargeInput(f chargeFlags) (in metal.ChargeInput, volume measure.CubicMM, err error) {
	in.Step = h.step
	var a metal.Alloy
	if f.alloy != "" {
		if a, err = h.alloy(f.alloy); err != nil {
			return in, 0, err
		}
		in.Density = a.Density()
	}
	if f.density != "" {
		if a.Measured, err = densityFlag("--density", f.density, 1, 23); err != nil {
			return in, 0, err
		}
		in.Density = a.Measured
		if f.alloy != "" {
			for _, x := range a.Check() {
				if x.Refused {
					return in, 0, wrongUsage("%s; %s", x.Message, x.Remedy)
				}
			}
		}
	}
	if in.Density <= 0 {
		return in, 0, wrongUsage(`an alloy or its density is needed, such as --alloy "750 yellow" or --density 15.2`)
	}
	if volume, err = patternVolume(f); err != nil {
		return in, 0, err
	}
	in.Castings = []measure.CubicMM{volume}
	if in.Button, err = h.buttonRule(f.button); err != nil {
		return in, 0, err
	}
	if h.shop != nil { // without a house nothing is counted that was not asked for
		in.Loss = h.shop.MeltLoss.Of(a)
	}
	if f.loss != "" {
		v, err := measure.Number(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(f.loss), "%")))
		if err != nil || v > 20 {
			return in, 0, wrongUsage("--melt-loss %q is not a share in %%; write such as 0.5", f.loss)
		}
		in.Loss = measure.Percent(v)
	}
	return in, volume, nil
}

// buttonRule is the flag's, else the house's.
func (h *house) buttonRule(text string) (metal.ButtonRule, error) {
	if text == "" {
		if h.shop == nil {
			return metal.ButtonRule{}, wrongUsage(`the button is needed, such as --button "10%% added", "10%% of total" or 12g; 0g is none`)
		}
		if h.shop.Button.Kind == metal.ButtonByFlask {
			return metal.ButtonRule{}, wrongUsage(`the house fills the button of the flask; give its weight, such as --button 12g`)
		}
		return h.shop.Button, nil
	}
	r, err := metal.ParseButtonRule(text)
	if err != nil {
		return r, wrongUsage("--button: %v", explained(err))
	}
	if r.Kind == metal.ButtonByFlask {
		return r, wrongUsage(`--button "by flask" needs a flask; give the weight, such as --button 12g`)
	}
	if h.shop != nil && (r.Kind != metal.ButtonFixed || r.Fixed > 0) {
		r.Minimum = h.shop.Button.Minimum
	}
	return r, nil
}

func patternVolume(f chargeFlags) (volume measure.CubicMM, err error) {
	for _, m := range []struct{ name, weight, density string }{{"wax", f.wax, f.waxDensity}, {"resin", f.resin, f.resinDensity}} {
		if (m.weight == "") != (m.density == "") {
			return 0, wrongUsage("--%s and --%s-density go together, such as --%s 5.5g --%s-density 0.96", m.name, m.name, m.name, m.name)
		}
		if m.weight == "" {
			continue
		}
		g, err := measure.ParseGram(m.weight)
		if err != nil || g <= 0 {
			return 0, wrongUsage("--%s %q is not a weight; write such as 5.5g", m.name, m.weight)
		}
		d, err := densityFlag("--"+m.name+"-density", m.density, 0.5, 2.5)
		if err != nil {
			return 0, err
		}
		volume += g.At(d)
	}
	if f.volume != "" {
		v, err := measure.ParseCubicMM(f.volume)
		if err != nil || v <= 0 {
			return 0, wrongUsage("--volume %q is not a volume; write such as 6919mm3", f.volume)
		}
		volume += v
	}
	if volume <= 0 {
		return 0, wrongUsage("the patterns are needed: --wax 5.5g --wax-density 0.96, --resin with --resin-density, or --volume 6919mm3")
	}
	return volume, nil
}

// densityFlag reads a density in g/cm³, a bare number or with its unit, within
// bounds that a slip of the decimal point does not pass.
func densityFlag(name, text string, low, high measure.GramPerCC) (measure.GramPerCC, error) {
	t := strings.TrimSpace(text)
	for _, unit := range []string{"g/cm3", "g/cm³"} {
		t = strings.TrimSpace(strings.TrimSuffix(t, unit))
	}
	v, err := measure.Number(t)
	d := measure.GramPerCC(v)
	if err != nil || d < low || d > high {
		return 0, wrongUsage("%s %q is not a density from %s to %s; write such as 0.96", name, text, low, high)
	}
	return d, nil
}

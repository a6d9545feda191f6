package main

import (
	"castweek/tree"
)

// What the JSON answer of plan says of kilns, powder and yield.
type (
	loadJSON struct {
		Number    int         `json:"number"`
		Kiln      int         `json:"kiln"`
		Programme string      `json:"programme"`
		Pattern   string      `json:"pattern"`
		Bond      string      `json:"bond"`
		Trees     []string    `json:"trees"` // in the order of pouring
		Riding    []string    `json:"riding"`
		On        string      `json:"on"`
		First     string      `json:"first_pour"`
		TopC      float64     `json:"top_c"`
		CeilingC  float64     `json:"ceiling_c"` // 0: none
		Path      []pointJSON `json:"path"`
	}
	pointJSON struct {
		Minute float64 `json:"minute"` // from switching on
		C      float64 `json:"c"`
	}
	powderJSON struct {
		Powder string  `json:"powder"`
		Bond   string  `json:"bond"`
		Flasks int     `json:"flasks"`
		Grams  float64 `json:"powder_g"`
		Liquid float64 `json:"liquid_g"`
	}
	yieldJSON struct {
		Castings float64 `json:"castings_g"`
		TiedUp   float64 `json:"tied_up_g"`
		Loss     float64 `json:"loss_g"`
		Total    float64 `json:"total_g"`
		Charge   float64 `json:"charge_percent"`
		Net      float64 `json:"net_percent"`
	}
	quenchJSON struct {
		Never    bool    `json:"never"`
		Least    float64 `json:"least_min"` // 0: not known
		Most     float64 `json:"most_min"`
		Disputed bool    `json:"sources_disagree"`
		Words    string  `json:"words"`
	}
)

func loadsJSON(c *tree.Cast) []loadJSON {
	out := []loadJSON{}
	for _, l := range c.Loads {
		j := loadJSON{l.Number, l.Oven, l.Programme, l.Pattern, l.Bond, append([]string{}, l.Trees...), append([]string{}, l.Riding...),
			stamp(l.On), stamp(l.First), float64(l.Top), float64(l.Ceiling), []pointJSON{}}
		for _, p := range l.Path {
			j.Path = append(j.Path, pointJSON{decimals(p.Minute, 1), float64(p.At)})
		}
		out = append(out, j)
	}
	return out
}

func powdersJSON(c *tree.Cast) []powderJSON {
	out := []powderJSON{}
	for _, p := range c.Powders {
		out = append(out, powderJSON{p.Powder, p.Bond, p.Flasks, inGrams(p.Weight), inGrams(p.Liquid)})
	}
	return out
}

func yieldAnswer(y tree.Yield) yieldJSON {
	return yieldJSON{inGrams(y.Castings), inGrams(y.TiedUp), inGrams(y.Loss), inGrams(y.Total), decimals(float64(y.Charge), 1), decimals(float64(y.Net), 1)}
}

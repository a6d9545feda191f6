package main

import (
	"time"

	"castweek/metal/measure"
	"castweek/tree"
)

// The JSON answer of plan. Its keys are a promise: additions only.
type (
	planAnswer struct {
		Schema   int           `json:"schema"`
		AsOf     string        `json:"as_of"`
		Cast     castJSON      `json:"cast"`
		Accepted []string      `json:"accepted"`
		Trees    []treeJSON    `json:"trees"`
		Groups   []groupJSON   `json:"groups"`
		Waiting  []waitingJSON `json:"waiting"`
		Held     []waitingJSON `json:"held"`
		LeftOver []leftJSON    `json:"left_over"`
		Late     []lateJSON    `json:"late"`
		Buy      []buyJSON     `json:"buy"`
		Left     []lotLeftJSON `json:"lots_left"`
		OwnMetal []ownJSON     `json:"own_metal"`
		Loads    []loadJSON    `json:"loads"`
		Powder   []powderJSON  `json:"powder"`
		Yield    yieldJSON     `json:"yield"`
		Remarks  []remarkJSON  `json:"remarks"`
		Marks    []markJSON    `json:"hallmarks"`
	}
	// remarkJSON is something a person should look at; job may be empty.
	remarkJSON struct {
		Job    string `json:"job"`
		Code   string `json:"code"`
		Text   string `json:"text"`
		Remedy string `json:"remedy"`
	}
	// markJSON is what the hallmark law on file says of a bag's piece; piece is 0
	// where all pieces of a job are kept together.
	markJSON struct {
		Job     string `json:"job"`
		Piece   int    `json:"piece"`
		Country string `json:"country"`
		Verdict string `json:"verdict"`
		Reason  string `json:"reason"`
		Decides string `json:"decides"`
	}
	castJSON struct {
		Name string `json:"name"`
		Pour string `json:"pour"`
	}
	treeJSON struct {
		Name     string             `json:"name"`
		Alloy    string             `json:"alloy"`
		Owner    string             `json:"owner"`
		Flask    string             `json:"flask"`
		Castings []string           `json:"castings"`
		Volume   float64            `json:"pattern_volume_mm3"`
		Before   map[string]float64 `json:"tree_before_investing_g"`
		Metal    treeMetalJSON      `json:"metal_g"`
		Mounting []mountJSON        `json:"mounting"`
		Order    int                `json:"pour_order"` // from 1; 0 when it is not poured or not settled
		PourAt   string             `json:"pour_at,omitempty"`
		FlaskC   float64            `json:"flask_c"` // 0: not known
		MetalC   float64            `json:"metal_c"` // 0: not known
		Powder   float64            `json:"powder_g"`
		Liquid   float64            `json:"liquid_g"`
		Lots     []lotTakeJSON      `json:"lots"`
		Short    float64            `json:"short_g"`
		Refused  []string           `json:"refused"`
		Kiln     int                `json:"kiln_load"` // 0: none
		OutMin   float64            `json:"out_of_kiln_min"`
		Quench   quenchJSON         `json:"quench"`
		Yield    yieldJSON          `json:"yield"`
	}
	buyJSON struct {
		Alloy   string  `json:"alloy"`
		Owner   string  `json:"owner"`
		Grams   float64 `json:"grams"`
		OrderBy string  `json:"order_by"`

		Trees []string `json:"trees"`
	}
	// lotLeftJSON: taken, promised to accepted casts and left add up to what is
	// on hand.
	lotLeftJSON struct {
		Lot      string  `json:"lot"`
		Alloy    string  `json:"alloy"`
		Owner    string  `json:"owner"`
		OnHand   float64 `json:"on_hand_g"`
		Taken    float64 `json:"taken_g"`
		Promised float64 `json:"promised_g"`
		Left     float64 `json:"left_g"`
		Barred   string  `json:"barred,omitempty"`
	}
	// ownJSON is a customer's own metal: what the receipt says.
	ownJSON struct {
		Number    string   `json:"number"`
		Customer  string   `json:"customer"`
		Alloy     string   `json:"alloy"`
		Trees     []string `json:"trees"`
		Jobs      []string `json:"jobs"`
		Needed    float64  `json:"needed_g"`
		Missing   float64  `json:"missing_g"`
		Over      float64  `json:"over_g"`
		Back      float64  `json:"back_g"`
		LeastIn   string   `json:"least_in_flask"`
		Least     float64  `json:"least_g"`
		LeastMiss float64  `json:"least_missing_g"`
	}
	lotTakeJSON struct {
		Lot   string  `json:"lot"`
		Grams float64 `json:"grams"`
	}
	// treeMetalJSON: every key but total is an addend of it.
	treeMetalJSON struct {
		Patterns float64 `json:"patterns"`
		Feeders  float64 `json:"feeders"`
		Trunk    float64 `json:"trunk"`
		Button   float64 `json:"button"`
		MeltLoss float64 `json:"melt_loss"`
		Rounding float64 `json:"rounding"`
		Total    float64 `json:"total"`
	}
	mountJSON struct {
		Casting string  `json:"casting"`
		Level   int     `json:"level"`
		Hour    float64 `json:"hour"`
		Tilt    float64 `json:"tilt_deg"`
	}
	groupJSON struct {
		Alloy  string `json:"alloy"`
		Owner  string `json:"owner"`
		Trees  int    `json:"trees"`
		Bound  int    `json:"bound"`
		Proved bool   `json:"proved"`
	}
	waitingJSON struct {
		Job    string `json:"job"`
		Reason string `json:"reason"`
		Ask    string `json:"ask,omitempty"`
	}
	leftJSON struct {
		Job      string   `json:"job"`
		Castings []string `json:"castings"`
		Reason   string   `json:"reason"`
	}
	lateJSON struct {
		Job   string `json:"job"`
		Due   string `json:"due"`
		Ready string `json:"ready"`
	}
)

func stamp(t time.Time) string { return t.Format(time.RFC3339) }

func inGrams(m measure.Milligram) float64 { return float64(m) / 1000 }

func planJSON(p *tree.Plan) planAnswer {
	c := &p.Cast
	a := planAnswer{Schema: schemaVersion, AsOf: stamp(c.AsOf), Cast: castJSON{c.Name, stamp(c.Pour)}, Accepted: append([]string{}, p.Accepted...),
		Trees: []treeJSON{}, Groups: []groupJSON{}, Waiting: waitings(c.Waiting), Held: waitings(c.Held), LeftOver: []leftJSON{}, Late: []lateJSON{}, Buy: []buyJSON{}, Left: []lotLeftJSON{}, OwnMetal: []ownJSON{}, Remarks: []remarkJSON{}, Marks: []markJSON{},
		Loads: loadsJSON(c), Powder: powdersJSON(c), Yield: yieldAnswer(c.Yield)}
	for _, t := range c.Trees {
		a.Trees = append(a.Trees, treeAnswer(t))
	}
	for _, b := range c.Buy {
		a.Buy = append(a.Buy, buyJSON{b.Alloy, ownerWord(b.Owner), inGrams(b.Weight), stamp(b.OrderBy), b.TreeNames()})
	}
	for _, l := range c.LotsLeft {
		a.Left = append(a.Left, lotLeftJSON{l.Lot, l.Alloy, ownerWord(l.Owner), inGrams(l.OnHand), inGrams(l.Taken), inGrams(l.Promised), inGrams(l.Weight), l.Barred})
	}
	for _, o := range c.OwnMetal {
		a.OwnMetal = append(a.OwnMetal, ownJSON{o.Number, o.Customer, o.Alloy, o.Trees, o.Jobs, inGrams(o.Total), inGrams(o.Missing), inGrams(o.Over), inGrams(o.Back),
			o.Smallest.Flask, inGrams(o.Smallest.Takes), inGrams(o.Smallest.Missing)})
	}
	for _, g := range p.Groups {
		a.Groups = append(a.Groups, groupJSON{g.Alloy, g.Owner, g.Trees, g.Bound, g.Proved})
	}
	for _, l := range c.LeftOver {
		a.LeftOver = append(a.LeftOver, leftJSON{l.Job, l.Castings, l.Reason})
	}
	for _, l := range c.Late {
		a.Late = append(a.Late, lateJSON{l.Job, stamp(l.Due), stamp(l.Ready)})
	}
	for _, r := range c.Remarks {
		a.Remarks = append(a.Remarks, remarkJSON{r.Job, r.Code, r.Text, r.Remedy})
	}
	for _, b := range c.Bags {
		if l := b.Law; l != nil {
			a.Marks = append(a.Marks, markJSON{b.Job, b.Piece, l.Country, l.Verdict, l.Reason, l.Decides})
		}
	}
	return a
}

func treeAnswer(t tree.Tree) treeJSON {
	c := t.Charge
	j := treeJSON{Name: t.Name, Alloy: t.Alloy, Owner: t.Owner, Flask: t.Flask, Castings: []string{}, Volume: decimals(float64(t.Patterns), 3), Before: map[string]float64{},
		Metal:    treeMetalJSON{inGrams(c.Patterns), inGrams(c.Feeders), inGrams(c.Trunk), inGrams(c.Button), inGrams(c.MeltLoss), inGrams(c.Rounding), inGrams(c.Total)},
		Mounting: []mountJSON{}, Order: t.Order, FlaskC: float64(t.FlaskAt), MetalC: float64(t.MetalAt), Powder: inGrams(t.Invest.Powder), Liquid: inGrams(t.Invest.Liquid),
		Lots: []lotTakeJSON{}, Short: inGrams(t.Lots.Short), Refused: append([]string{}, t.Refused...),
		Kiln: t.Kiln, OutMin: t.OutOfKiln, Quench: quenchJSON{t.Quench.Never, t.Quench.Least, t.Quench.Most, t.Quench.Disputed, t.Quench.Words}, Yield: yieldAnswer(t.Yield)}
	if !t.PourAt.IsZero() {
		j.PourAt = stamp(t.PourAt)
	}
	for _, k := range t.Lots.Takes {
		j.Lots = append(j.Lots, lotTakeJSON{k.Lot, inGrams(k.Weight)})
	}
	for _, h := range t.Castings {
		j.Castings = append(j.Castings, h.Casting)
		j.Mounting = append(j.Mounting, mountJSON{h.Casting, h.Level, h.Hour, decimals(h.Tilt, 1)})
	}
	for _, m := range t.Before {
		j.Before[m.Material] = inGrams(m.Weight)
	}
	return j
}

func waitings(list []tree.Waiting) []waitingJSON {
	out := []waitingJSON{}
	for _, w := range list {
		out = append(out, waitingJSON{w.Job, w.Reason, w.Ask})
	}
	return out
}

package ringsize

import (
	"fmt"

	"castweek/metal/measure"
)

// Everything a person reads from this package stands in this file.

var systemNames = map[System]string{UK: "UK", US: "US", ISO: "ISO", Japan: "Japan", Swiss: "Swiss", Measured: "mm"}

// Name is the word for the system in front of a label: "UK", "Japan".
func (s System) Name() string { return systemNames[s] }

// String writes the label with its system: "UK N½".
func (l Label) String() string {
	if !l.Reached() {
		return l.System.Name() + ": not on this scale"
	}
	return l.System.Name() + " " + l.Text
}

// String writes the size as typed with its length: "UK P½ (18.10 mm inside)".
func (s Size) String() string {
	if s.System == Measured || s.AsTyped == "" {
		return s.Inside.String() + " inside, " + s.Circumference.String() + " round"
	}
	return s.AsTyped + " (" + s.Inside.String() + " inside)"
}

const (
	askBoth  = "ask whether the circumference or the inside diameter was meant"
	giveInMM = "measure the inside diameter and write it, such as 17.2 mm"
)

func refuse(code, remedy, format string, args ...any) error {
	return &measure.SyntaxError{Code: code, Message: fmt.Sprintf(format, args...), Remedy: remedy}
}

func reach(s scale) string {
	return fmt.Sprintf("%s sizes run from %s to %s", s.system.Name(), s.label(0), s.label(s.steps-1))
}

var gaugeNames = map[Gauge]string{Narrow: "narrow gauge", Wide: "wide gauge", Stick: "stick"}

// Name is the word for the gauge on paper.
func (g Gauge) Name() string { return gaugeNames[g] }

const (
	sourceWideBand  = "half a UK letter for a 5 mm band: a maker's sizing page; others add a half or a whole US size"
	sourceGauge     = "benchmark page of a gemmological institute"
	commonPractice  = "common practice, no source"
	sourceUKSpread  = "comparison of five printed charts with BS 6820"
	sourceUSCopying = "circular of the Bureau of Standards"
)

var (
	noteUK      = Note{"Printed charts differ by up to a whole UK letter. Check the mm.", sourceUKSpread}
	noteUS      = Note{"US sticks differ from make to make. Check the mm.", sourceUSCopying}
	noteNoGauge = Note{"Nobody wrote which gauge was used. Ask.", commonPractice}
)

func gaugeNote(band measure.MM, gauge Gauge) Note {
	return Note{fmt.Sprintf("Measured with the %s; a band %s wide asks for the %s.", gauge.Name(), band, GaugeFor(band).Name()), sourceGauge}
}

func wideNote(wider Size, band measure.MM, rule WideBand) Note {
	return Note{fmt.Sprintf("Band %s wide: think of %s round (+%s). Ask before you change it.", band, wider.Circumference, rule.Add), rule.Source}
}

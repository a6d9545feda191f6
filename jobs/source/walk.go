package source

import (
	"strings"

	"go.yaml.in/yaml/v4"
)

// walk judges the structure below a node, and marks as broken what it reports,
// so that no second problem is made of it.
func (d *document) walk(n *yaml.Node, depth int) {
	if depth > maxDepth {
		d.refuse(n, "too-deep", "write it flatter", "more than %d lists and maps inside each other", maxDepth)
		return
	}
	switch {
	case n.Kind == yaml.AliasNode:
		d.refuse(n, "yaml-feature", "write the value itself", "an alias (*%s) is not read here", n.Value)
		return
	case n.Anchor != "":
		d.refuse(n, "yaml-feature", "remove the anchor", "an anchor (&%s) is not read here", n.Anchor)
		return
	case n.Style&yaml.TaggedStyle != 0:
		d.refuse(n, "yaml-feature", "remove the tag", "a tag (%s) is not read here", n.Tag)
		return
	}
	switch n.Kind {
	case yaml.MappingNode:
		d.walkMap(n, depth)
	case yaml.SequenceNode:
		if len(n.Content) == 0 {
			d.refuse(n, "value-empty", "fill it, or leave the key out", "an empty list")
		}
		for _, item := range n.Content {
			d.walk(item, depth+1)
		}
	case yaml.ScalarNode:
		d.walkScalar(n)
	}
}

func (d *document) walkMap(n *yaml.Node, depth int) {
	if len(n.Content) == 0 {
		d.refuse(n, "value-empty", "fill it, or leave the key out", "empty braces")
	}
	seen := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		switch {
		case key.Kind != yaml.ScalarNode || key.Anchor != "" || key.Style&yaml.TaggedStyle != 0:
			d.refuse(key, "key-form", "write a plain word, a colon and the value", "a key is one plain word")
			continue
		case key.Tag == "!!merge":
			d.refuse(key, "yaml-feature", "write the keys themselves", "a merge (<<) is not read here")
			d.broken[value] = true
			continue
		}
		if first, double := seen[key.Value]; double {
			d.refuse(key, "key-double", "remove one of the two", "%q is given twice, first on line %d", key.Value, first.Line)
		} else {
			seen[key.Value] = key
		}
		if i > 0 && d.decimalComma(n, n.Content[i-1], key, value) {
			continue
		}
		if isNull(value) {
			// The library puts an empty value behind the colon, where nothing
			// can be pointed at: the key is the better place.
			d.broken[value] = true
			d.fault(d.place(key), "value-empty", "write a value, or leave the key out", "%q has no value", key.Value)
			continue
		}
		d.walk(value, depth+1)
	}
}

// decimalComma finds a number such as "0,52 g" between braces: YAML takes its
// comma for the end of the value, and what follows for a key without a value.
// One mistake is one problem, at the number.
func (d *document) decimalComma(m, whole, key, value *yaml.Node) bool {
	if m.Style&yaml.FlowStyle == 0 || !isNull(value) || whole.Kind != yaml.ScalarNode || key.Line != whole.Line || d.broken[whole] ||
		strings.Trim(whole.Value, "0123456789") != "" || key.Value == "" || key.Value[0] < '0' || key.Value[0] > '9' {
		return false
	}
	d.broken[key], d.broken[value] = true, true
	d.refuse(whole, "number-comma", "write a decimal point: "+whole.Value+"."+key.Value, "%q has a comma", whole.Value+","+key.Value)
	return true
}

func (d *document) walkScalar(n *yaml.Node) {
	switch {
	case isNull(n) || strings.TrimSpace(n.Value) == "":
		d.refuse(n, "value-empty", "write a value, or leave it out", "an empty value")
	case strings.ContainsFunc(n.Value, func(r rune) bool { return r == '\t' || r != '\n' && forbidden(r) }):
		d.refuse(n, "text-control", "write spaces, and no control characters", "a tab or control character in the text")
	}
}

// refuse adds a problem at a node and marks the node as reported.
func (d *document) refuse(n *yaml.Node, code, remedy, format string, args ...any) {
	d.broken[n] = true
	d.fault(d.place(n), code, remedy, format, args...)
}

// isNull tells what YAML takes for nothing: no value, ~ and the word null.
func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0 &&
		(n.Tag == "!!null" || n.Value == "")
}

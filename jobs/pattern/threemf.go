package pattern

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"path"
	"strings"
)

// Limits of a 3MF file; the standard names none.
const (
	mostUnpacked  = 1 << 30   // bytes of all model parts
	freeUnpacked  = 16 << 20  // a part up to this size may be packed as tightly as it likes
	mostRatio     = 120       // unpacked to packed; meshes as text come to 5 to 30
	mostInstances = 100_000   // meshes after components are expanded
	mostParts     = 1000      // model parts
	mostObjects   = 1_000_000 // of one model part
)

const modelRelation = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"

// A package3MF is an opened 3MF file (3MF Core Specification 1.4.0 and
// Production Extension 1.1.2).
type package3MF struct {
	r        *reader
	files    map[string]*zip.File // by lower-case name without the leading slash
	parts    map[string]*modelPart
	unpacked uint64
	unit     string
	left     int // objects left out: supports and surfaces
	counted  int // instances so far
}

func (r *reader) read3MF() error {
	r.format = "3MF"
	z, err := zip.NewReader(bytes.NewReader(r.data), int64(len(r.data)))
	if err != nil {
		return r.fail("mesh-zip", "export or copy the pattern again", "the 3MF package can not be opened: %v", err)
	}
	p := &package3MF{r: r, files: map[string]*zip.File{}, parts: map[string]*modelPart{}}
	for _, f := range z.File {
		p.files[partName(f.Name)] = f
	}
	root, err := p.root()
	if err != nil {
		return err
	}
	part, err := p.load(root, true)
	if err != nil {
		return err
	}
	return p.build(part)
}

// partName brings a name into the form in which names are compared.
func partName(s string) string { return strings.ToLower(strings.TrimPrefix(path.Clean("/"+s), "/")) }

// root finds the model part by its relation, not by its name (2.1.1).
func (p *package3MF) root() (string, error) {
	text, err := p.unpack("_rels/.rels")
	if err != nil {
		return "", err
	}
	var rels struct {
		Relationship []struct {
			Type       string `xml:",attr"`
			Target     string `xml:",attr"`
			TargetMode string `xml:",attr"`
		}
	}
	if bytes.Contains(text, []byte("<!DOCTYPE")) {
		return "", p.fail("a document type is not allowed in _rels/.rels")
	}
	if err := xml.Unmarshal(text, &rels); err != nil {
		return "", p.fail("_rels/.rels is not well-formed: %v", err)
	}
	found := ""
	for _, rel := range rels.Relationship {
		if rel.Type != modelRelation {
			continue
		}
		if strings.EqualFold(rel.TargetMode, "External") {
			return "", p.fail("the model lies outside the file")
		}
		if found != "" {
			return "", p.fail("the package names more than one root model")
		}
		found = partName(rel.Target)
	}
	if found == "" {
		return "", p.fail("the package names no root model")
	}
	return found, nil
}

func (p *package3MF) fail(format string, args ...any) error {
	return p.r.fail("mesh-3mf", "export the pattern again, or export it as STL", format, args...)
}

// unpack reads one member; what it claims is checked before, and what it
// gives while it is read.
func (p *package3MF) unpack(name string) ([]byte, error) {
	f := p.files[name]
	if f == nil {
		return nil, p.fail("the part %s is missing", name)
	}
	if f.Method != zip.Store && f.Method != zip.Deflate {
		return nil, p.fail("the part %s is packed by a method that 3MF does not allow", name)
	}
	most := min(uint64(mostUnpacked)-p.unpacked, max(freeUnpacked, mostRatio*f.CompressedSize64))
	tooLarge := func() error {
		return p.r.fail("mesh-too-large", "export the pattern as binary STL", "the part %s unpacks to more than %d bytes from %d: refused unread", name, most, f.CompressedSize64)
	}
	if f.UncompressedSize64 > most {
		return nil, tooLarge()
	}
	in, err := f.Open()
	if err != nil {
		return nil, p.fail("the part %s can not be unpacked: %v", name, err)
	}
	defer in.Close()
	out := bytes.NewBuffer(make([]byte, 0, min(f.UncompressedSize64, freeUnpacked)+512))
	if _, err := io.Copy(out, io.LimitReader(in, int64(most)+1)); err != nil {
		return nil, p.fail("the part %s can not be unpacked: %v", name, err)
	}
	if uint64(out.Len()) > most {
		return nil, tooLarge()
	}
	p.unpacked += uint64(out.Len())
	return out.Bytes(), nil
}

// build adds every item of the root part, and nothing that no item names
// (3.4.3).
func (p *package3MF) build(root *modelPart) error {
	for _, it := range root.items {
		part, err := p.other(root, it.path)
		if err != nil {
			return err
		}
		o := part.objects[it.object]
		switch {
		case o == nil:
			return p.fail("a build item names object %s, which is not there", it.object)
		case o.kind == "other":
			return p.fail("a build item names object %s of type other, which must not be built", it.object)
		case o.faces > uint64(p.r.opt.MostFaces):
			return p.r.fail("mesh-too-large", "export the pattern as binary STL", "the components come to %d faces, more than %d", o.faces, p.r.opt.MostFaces)
		case o.instances > mostInstances:
			return p.r.fail("mesh-too-large", "export the pattern as binary STL", "the components come to %d meshes, more than %d", o.instances, mostInstances)
		}
		if err := p.place(part, o, it.transform); err != nil {
			return err
		}
	}
	if p.left > 0 {
		p.r.note("pattern-left-out", "nothing to do: supports and open surfaces are no metal", fmt.Sprintf("%d objects of type support or surface were left out", p.left))
	}
	u, ok := map[string]Unit{"": Millimetre, "millimeter": Millimetre, "inch": Inch, "centimeter": Centimetre, "meter": Metre, "micron": Micron, "foot": Foot}[p.unit]
	if !ok {
		return p.fail("%q is not a unit of the standard", p.unit)
	}
	p.r.mesh.unit = u
	return nil
}

// place adds one object, with all its components, as bodies of its own: each
// object fills by its own winding before objects are united (3.4.3.1, 4.2).
func (p *package3MF) place(part *modelPart, o *object3MF, by transform) error {
	if o.kind != "model" && o.kind != "" {
		p.left++
		return nil
	}
	for _, c := range o.components {
		at, err := p.other(part, c.path)
		if err != nil {
			return err
		}
		if err := p.place(at, at.objects[c.object], c.transform.then(by)); err != nil {
			return err
		}
	}
	if len(o.triangles) == 0 {
		return nil
	}
	r := p.r
	if p.counted++; p.counted > mostInstances {
		return r.fail("mesh-too-large", "export the pattern as binary STL", "more than %d meshes", mostInstances)
	}
	if err := r.tooMany(len(r.mesh.Faces) + len(o.triangles)); err != nil {
		return err
	}
	det := by.determinant()
	if det == 0 {
		return p.fail("a transform flattens an object")
	}
	r.newBody()
	at := make([]int32, len(o.points))
	for i, v := range o.points {
		at[i] = r.add(by.apply(v))
	}
	for _, t := range o.triangles {
		if det < 0 { // a mirrored object keeps its outside outside (3.3)
			t[1], t[2] = t[2], t[1]
		}
		before := len(r.mesh.Faces)
		r.face(at[t[0]], at[t[1]], at[t[2]])
		if len(r.mesh.Faces) > before {
			r.mesh.body = append(r.mesh.body, int32(r.mesh.bodies))
		}
	}
	r.mesh.bodies++
	return nil
}

// other is the part that a path names; the part itself without one.
func (p *package3MF) other(part *modelPart, name string) (*modelPart, error) {
	if name == "" {
		return part, nil
	}
	return p.load(partName(name), false)
}

package jobs

import (
	"io/fs"

	"castweek/jobs/pattern"
)

// ReadSkins reads the meshes of the jobs' measured patterns once more, for who
// has to know where their surface runs: measurements may come from a cache, the
// surface does not. Equal files share one skin.
func ReadSkins(fsys fs.FS, list []*Job) error {
	type key struct {
		file, unit string
		mirrored   bool
	}
	known := map[key]*Skin{}
	for _, j := range list {
		for i := range j.Parts {
			p := &j.Parts[i].Pattern
			if p.Measured == nil {
				continue
			}
			k := key{p.Mesh, p.Unit, p.Mirrored}
			if known[k] == nil {
				data, err := readBounded(fsys, p.Mesh, maxMeshBytes)
				if err != nil {
					return err
				}
				m, err := pattern.Read(p.Mesh, data, pattern.Options{Unit: pattern.Unit(p.Unit)})
				if err != nil {
					return err
				}
				known[k] = skinOf(m, p.Mirrored)
				known[k].Views = m.Views(p.Measured.Frame)
			}
			p.Skin = known[k]
		}
	}
	return nil
}

// skinOf copies a mesh's surface, mirrored across x when it has to be; the
// corners of a mirrored face change their order, so that it still looks out.
func skinOf(m *pattern.Mesh, mirrored bool) *Skin {
	if !mirrored {
		return &Skin{Points: m.Points, Faces: m.Faces}
	}
	s := &Skin{Points: make([][3]float64, len(m.Points)), Faces: make([][3]int32, len(m.Faces))}
	for i, p := range m.Points {
		s.Points[i] = [3]float64{-p[0], p[1], p[2]}
	}
	for i, f := range m.Faces {
		s.Faces[i] = [3]int32{f[0], f[2], f[1]}
	}
	return s
}

package jobs

import (
	"cmp"
	"io/fs"
	"slices"
	"strings"

	"castweek/jobs/pattern"
	"castweek/jobs/workshop"
	"castweek/metal/problem"
)

// Names of the files of a job folder.
const (
	WorkshopFile = "workshop.yaml"
	JobsDir      = "jobs"
	WishesFile   = "wishes.yaml"
)

// A Folder is what was read of a job folder. Jobs that are not sound are in
// Held, and in no other list.
type Folder struct {
	Workshop *workshop.Workshop // nil when its file has an error
	Jobs     []*Job             // sound, in the order of their numbers, whatever their state
	Held     []Held
	Wishes   Wishes
	// Refused says that nothing may be planned: the workshop's settings, the
	// folder of jobs or a person's wishes are in doubt.
	Refused bool
}

// Held is a job whose file has an error.
type Held struct {
	Job      string // its number, or the file's name where none could be read
	File     string
	Reason   string // the first error
	Problems problem.List
}

// Options says how to read a folder. The zero value is of use.
type Options struct {
	// Progress is told after each pattern how many of how many are measured.
	// It is called from one goroutine at a time.
	Progress func(done, total int)
	// Cache keeps what was measured, from run to run.
	Cache Cache
	// Measure replaces [pattern.Measure] in tests.
	Measure func(name string, data []byte, opt pattern.Options) (pattern.Report, error)
}

// ReadFolder reads and judges a job folder: workshop.yaml, jobs/*.yaml, the
// patterns that they name and wishes.yaml. The list holds the problems of all
// files, held jobs included, ordered by file and line.
func ReadFolder(fsys fs.FS, opt Options) (*Folder, problem.List) {
	f := &Folder{}
	var problems problem.List
	if data, ok := readFile(fsys, WorkshopFile, &problems); ok {
		var found problem.List
		f.Workshop, found = workshop.Read(WorkshopFile, data)
		problems = append(problems, found...)
	}
	misnamed(fsys, &problems)
	files := jobFiles(fsys, &problems)
	f.Refused = len(problems.Errors()) > 0
	all := make([]*fileJob, len(files))
	for i, name := range files {
		all[i] = readFileJob(fsys, name, f.Workshop)
	}
	measurePatterns(fsys, f.Workshop, all, opt)
	doubles(all)
	nearOwners(all)
	for _, j := range all {
		problems = append(problems, j.problems...)
		if len(j.problems.Errors()) > 0 {
			f.Held = append(f.Held, j.held())
		} else {
			j.job.Remarks = j.problems.Remarks()
			f.Jobs = append(f.Jobs, j.job)
		}
	}
	slices.SortStableFunc(f.Jobs, func(a, b *Job) int { return CompareNumbers(a.Number, b.Number) })
	slices.SortStableFunc(f.Held, func(a, b Held) int { return cmp.Or(CompareNumbers(a.Job, b.Job), strings.Compare(a.File, b.File)) })
	f.Refused = !f.readWishes(fsys, all, &problems) || f.Refused
	problems.Sort()
	return f, problems
}

// fileJob is one file under jobs/ and what came of it.
type fileJob struct {
	file     string
	job      *Job // nil when nothing could be read
	problems problem.List
}

func readFileJob(fsys fs.FS, name string, shop *workshop.Workshop) *fileJob {
	f := &fileJob{file: name}
	if !strings.HasSuffix(name, ".yaml") {
		f.problems.Add(problem.Place{File: name}, "job-file-name", "rename it to end with .yaml", "the file is not read: its name does not end with .yaml")
		return f
	}
	data, ok := readFile(fsys, name, &f.problems)
	if !ok {
		return f
	}
	var found problem.List
	f.job, found = ReadJob(name, data, shop)
	f.problems = append(f.problems, found...)
	return f
}

// number is the job's, or the file's name where none could be read.
func (f *fileJob) number() string {
	if f.job != nil && f.job.Number != "" {
		return f.job.Number
	}
	name := strings.TrimPrefix(f.file, JobsDir+"/")
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		name = name[:i]
	}
	return problem.Printable(name)
}

func (f *fileJob) held() Held {
	f.problems.Sort()
	return Held{f.number(), f.file, f.problems.Errors()[0].Message, f.problems}
}

// doubles finds job numbers that two files claim. Case is no difference: both
// would become the same file name on some systems.
func doubles(all []*fileJob) {
	first := map[string]*fileJob{}
	for _, f := range all {
		if f.job == nil || f.job.Number == "" {
			continue
		}
		key := strings.ToLower(f.job.Number)
		o := first[key]
		if o == nil {
			first[key] = f
			continue
		}
		const code, remedy = "job-double", "give one of the two another number, or remove its file"
		f.problems.Add(f.job.NumberAt, code, remedy, "job %s is also in %s", f.job.Number, o.file)
		o.problems.Add(o.job.NumberAt, code, remedy, "job %s is also in %s", o.job.Number, f.file)
	}
}

// CompareNumbers orders job numbers as a person does: K-9 before K-10.
func CompareNumbers(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		dx, dy := digitsOf(x), digitsOf(y)
		if dx > 0 && dy > 0 {
			m, n := strings.TrimLeft(x[:dx], "0"), strings.TrimLeft(y[:dy], "0")
			if c := cmp.Or(cmp.Compare(len(m), len(n)), cmp.Compare(m, n)); c != 0 {
				return c
			}
			x, y = x[dx:], y[dy:]
			continue
		}
		if x[0] != y[0] {
			return cmp.Compare(x[0], y[0])
		}
		x, y = x[1:], y[1:]
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

func digitsOf(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

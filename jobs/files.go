package jobs

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"sort"
	"strings"

	"castweek/jobs/source"
	"castweek/metal/problem"
)

// maxJobFiles bounds a folder: ten years of a busy workshop.
const maxJobFiles = 20_000

// readFile reads a file of text up to the bound of [source.Parse].
func readFile(fsys fs.FS, name string, problems *problem.List) ([]byte, bool) {
	data, err := readBounded(fsys, name, source.MaxBytes)
	at := problem.Place{File: name}
	switch {
	case err == nil:
		return data, true
	case errors.Is(err, fs.ErrNotExist) && isLink(fsys, name):
		problems.Add(at, "file-unreadable", "put the file itself there", "the file cannot be read: it is a link that leads nowhere")
	case errors.Is(err, fs.ErrNotExist):
		problems.Add(at, "file-missing", "write it; the page on job folders shows a complete one", "there is no %s in the folder", name)
	case errors.Is(err, errTooLarge):
		problems.Add(at, "file-too-large", "split it, or remove what does not belong here", "the file is larger than %d KiB", source.MaxBytes>>10)
	default:
		problems.Add(at, "file-unreadable", "check the file and the right to read it", "the file cannot be read: %s", plainError(err))
	}
	return nil, false
}

func isLink(fsys fs.FS, name string) bool {
	info, err := fs.Lstat(fsys, name)
	return err == nil && info.Mode()&fs.ModeSymlink != 0
}

var errTooLarge = errors.New("too large")

// readBounded reads at most limit bytes, and refuses a longer file, a folder
// and a device.
func readBounded(fsys fs.FS, name string, limit int64) ([]byte, error) {
	info, err := fs.Stat(fsys, name) // before it is opened: a pipe would wait for a writer
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errors.New("it is not an ordinary file")
	case info.Size() > limit:
		return nil, errTooLarge
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data := make([]byte, 0, info.Size()+1)
	for {
		n, err := f.Read(data[len(data):cap(data)])
		data = data[:len(data)+n]
		switch {
		case errors.Is(err, io.EOF):
			return data, nil
		case err != nil:
			return nil, err
		case int64(len(data)) > limit:
			return nil, errTooLarge
		case len(data) == cap(data):
			data = append(data, 0)[:len(data)]
		}
	}
}

// plainError drops the name of the call and the path from an error of the
// system, which differ from machine to machine.
func plainError(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	if err.Error() == "path escapes from parent" { // of package os, which has no name for it
		return "it is a link that leads out of the job folder"
	}
	return err.Error()
}

// misnamed finds files of the job folder that are meant to be settings or wishes
// and would not be read: planning without them would undo what a person wrote.
func misnamed(fsys fs.FS, problems *problem.List) {
	entries, _ := fs.ReadDir(fsys, ".") // a folder that can not be read is told of by its files
	for _, e := range entries {
		for _, name := range []string{WorkshopFile, WishesFile} {
			stem := strings.TrimSuffix(name, ".yaml")
			low := strings.ToLower(e.Name())
			_, err := fs.Stat(fsys, name)
			switch {
			case e.Name() == name || low == name && err == nil: // some systems know no case
			case low == name, low == stem+".yml", low == stem+".yaml.txt", low == stem+".yml.txt":
				problems.Add(problem.Place{File: e.Name()}, "file-name", "rename it to "+name+", or move it away", "the file is not read: it would have to be called %s", name)
			}
		}
	}
}

// why adds the reason to a folder that is there and can not be read.
func why(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return ""
	}
	return ": " + plainError(err)
}

// jobFiles lists the files of jobs/ that hold, or are meant to hold, a job. A
// file that looks like a job and would not be read must not be passed over in
// silence; notes and hidden files may lie beside them.
func jobFiles(fsys fs.FS, problems *problem.List) []string {
	entries, err := fs.ReadDir(fsys, JobsDir)
	at := problem.Place{File: JobsDir}
	if err != nil {
		problems.Add(at, "jobs-missing", "make a folder jobs, with one .yaml file a job", "there is no folder %s that can be read%s", JobsDir, why(err))
		return nil
	}
	var out []string
	for _, e := range entries {
		name := path.Join(JobsDir, e.Name())
		ext := strings.ToLower(path.Ext(e.Name()))
		if inner := strings.ToLower(path.Ext(strings.TrimSuffix(e.Name(), path.Ext(e.Name())))); ext == ".txt" && inner != "" {
			ext = inner // K-204.yaml.txt, as some editors save it unseen
		}
		switch {
		case strings.HasPrefix(e.Name(), ".") || ext == ".md" || ext == ".txt":
		case e.IsDir():
			problems.Remark(problem.Place{File: name}, "job-folder", "move its files one level up, or out of jobs", "the folder is not read")
		case ext == ".yaml" || ext == ".yml":
			out = append(out, name)
		default:
			problems.Remark(problem.Place{File: name}, "job-file-other", "rename it to end with .yaml if it is a job", "the file is not read")
		}
	}
	sort.Strings(out)
	if len(out) > maxJobFiles {
		problems.Add(at, "jobs-many", "move what is done into another folder", "%d files; at most %d are read", len(out), maxJobFiles)
		out = out[:maxJobFiles]
	}
	return out
}

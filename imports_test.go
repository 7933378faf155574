package heddle

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// picture is the import picture of doc/design.md: what each package may
// import of this module. What is not listed may import nothing of it.
var picture = map[string][]string{
	"pitch":    {},
	"neck":     {"pitch"},
	"line":     {"pitch", "neck"},
	"phrase":   {"pitch", "neck", "line"},
	"weave":    {"pitch", "neck", "line"},
	"finger":   {"pitch", "neck", "line"},
	"touch":    {"pitch", "neck", "line", "finger"},
	"exercise": {"pitch", "neck", "line", "finger", "touch", "phrase", "weave"},

	"audio": {"pitch"},

	"notefile": {"pitch", "neck", "line", "finger", "touch", "exercise"},
	"score":    {"pitch", "neck", "line", "finger", "touch", "exercise"},
	"sound":    {"pitch", "neck", "line", "finger", "touch", "exercise", "audio"},
	"hear":     {"pitch", "neck", "line", "finger", "touch", "exercise", "audio"},

	"deliver":  {"pitch", "neck", "line", "finger", "touch", "exercise", "audio", "notefile", "score", "sound"},
	"practice": {"pitch", "neck", "line", "finger", "touch", "exercise", "hear", "score"},
	"lesson":   {"pitch", "neck", "line", "finger", "touch", "exercise", "deliver", "score", "practice"},
	"bench":    {"pitch", "neck", "line", "finger", "touch", "exercise", "audio", "notefile", "score", "sound", "hear", "deliver", "practice", "lesson"},

	"cmd/heddle": {"pitch", "neck", "line", "finger", "touch", "exercise", "audio", "notefile", "score", "sound", "hear", "deliver", "practice", "lesson", "bench"},
}

// A package and what lies in folders below it count as one.
func owner(dir string) string {
	for name := range picture {
		if dir == name || strings.HasPrefix(dir, name+"/") {
			return name
		}
	}
	return dir
}

func TestImportsKeepToThePicture(t *testing.T) {
	seen := 0
	err := filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && (entry.Name() == "node_modules" || entry.Name() == "testdata" || strings.HasPrefix(entry.Name(), ".") && path != ".") {
			return fs.SkipDir
		}
		dir := filepath.ToSlash(filepath.Dir(path))
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || dir == "." || strings.HasPrefix(dir, "internal/") {
			return nil
		}
		seen++
		allowed, known := picture[owner(dir)]
		if !known {
			t.Errorf("%s: package %s is not in the picture", path, dir)
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			target, ours := strings.CutPrefix(imported, "heddle/")
			if ours && owner(target) != owner(dir) && !slices.Contains(allowed, owner(target)) {
				t.Errorf("%s imports %s, against the picture", path, imported)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen == 0 {
		t.Fatal("no files were looked at")
	}
}

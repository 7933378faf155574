// Package bundler turns the bench's TypeScript and style sheets into the few
// small files that pages load. The same source gives the same bytes.
package bundler

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// Build returns the built files by name, from the bench's folder.
func Build(dir string) (map[string][]byte, error) {
	files := map[string][]byte{}
	for _, entry := range []string{"scripts/main.ts", "styles/bench.css", "scripts/take.ts", "scripts/capture.ts", "styles/take.css", "scripts/practice.ts", "styles/practice.css"} {
		name := built(entry)
		body, err := bundle(dir, entry)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", entry, err)
		}
		files[name] = body
	}
	mark, err := os.ReadFile(filepath.Join(dir, "styles", "mark.svg"))
	if err != nil {
		return nil, err
	}
	files["mark.svg"] = mark
	return files, nil
}

// built is what an entry's bundle is called.
func built(entry string) string {
	name := strings.TrimSuffix(filepath.Base(entry), filepath.Ext(entry))
	if name == "main" {
		name = "bench"
	}
	return name + map[string]string{".ts": ".js", ".css": ".css"}[filepath.Ext(entry)]
}

// bundle builds one file with all it imports. Fonts stay files of their own.
func bundle(dir, entry string) ([]byte, error) {
	absolute, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	result := api.Build(api.BuildOptions{
		AbsWorkingDir: absolute, EntryPoints: []string{entry}, Bundle: true, Format: api.FormatESModule,
		MinifyWhitespace: true, MinifyIdentifiers: true, MinifySyntax: true,
		Target: api.ES2022, Charset: api.CharsetUTF8, LegalComments: api.LegalCommentsNone,
		External: []string{"*.woff2"}, LogLevel: api.LogLevelSilent,
	})
	if faults := slices.Concat(result.Errors, result.Warnings); len(faults) > 0 {
		place := ""
		if at := faults[0].Location; at != nil {
			place = fmt.Sprintf("%s:%d: ", at.File, at.Line)
		}
		return nil, fmt.Errorf("%s%s", place, faults[0].Text)
	}
	if len(result.OutputFiles) != 1 {
		return nil, fmt.Errorf("%d files were built instead of one", len(result.OutputFiles))
	}
	return result.OutputFiles[0].Contents, nil
}

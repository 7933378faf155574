// Release builds heddle for every system it is offered for and packs each
// program with the README and the licences:
//
//	go run ./internal/release -version v0.2.0 -o dist
//
// The same source and version give the same archives; SHA256SUMS holds their
// checksums.
package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"time"
)

// packed is the time that archives give for their files: none of them depends
// on when it was made.
var packed = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func main() {
	version := flag.String("version", "", "the version, such as v0.2.0")
	dir := flag.String("o", "dist", "the folder for the archives")
	flag.Parse()
	if err := release(*version, *dir); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

func release(version, dir string) error {
	if version == "" {
		return errors.New("want -version, such as -version v0.2.0")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	licences, err := exec.Command("go", "run", "./cmd/heddle", "licences").Output()
	if err != nil {
		return fmt.Errorf("heddle licences: %w", err)
	}
	shared := []file{{name: "LICENCES.txt", body: licences, mode: 0o644}}
	for _, name := range []string{"README.md", "LICENSE", "CHANGELOG.md"} {
		body, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		shared = append(shared, file{name: name, body: body, mode: 0o644})
	}
	var sums bytes.Buffer
	for _, system := range []string{"linux", "darwin", "windows"} {
		for _, chip := range []string{"amd64", "arm64"} {
			name, archive, err := pack(version, system, chip, shared)
			if err != nil {
				return fmt.Errorf("%s/%s: %w", system, chip, err)
			}
			if err := os.WriteFile(filepath.Join(dir, name), archive, 0o644); err != nil {
				return err
			}
			fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(archive), name)
			fmt.Println(name, len(archive)>>20, "MiB")
		}
	}
	return os.WriteFile(filepath.Join(dir, "SHA256SUMS"), sums.Bytes(), 0o644)
}

type file struct {
	name string
	body []byte
	mode fs.FileMode
}

// pack builds the program for one system and packs it as that system's users
// expect.
func pack(version, system, chip string, shared []file) (name string, archive []byte, err error) {
	program := file{name: "heddle", mode: 0o755}
	if system == "windows" {
		program.name += ".exe"
	}
	out, err := os.MkdirTemp("", "heddle-release-*")
	if err != nil {
		return "", nil, err
	}
	defer os.RemoveAll(out)
	path := filepath.Join(out, program.name)
	build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", path, "./cmd/heddle")
	build.Env = append(os.Environ(), "GOOS="+system, "GOARCH="+chip, "CGO_ENABLED=0")
	if said, err := build.CombinedOutput(); err != nil {
		return "", nil, fmt.Errorf("%w: %s", err, said)
	}
	if program.body, err = os.ReadFile(path); err != nil {
		return "", nil, err
	}
	folder := fmt.Sprintf("heddle-%s-%s-%s", version, system, chip)
	files := append([]file{program}, shared...)
	if system == "windows" {
		archive, err = zipped(folder, files)
		return folder + ".zip", archive, err
	}
	archive, err = tarred(folder, files)
	return folder + ".tar.gz", archive, err
}

func zipped(folder string, files []file) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range files {
		head := &zip.FileHeader{Name: folder + "/" + f.name, Method: zip.Deflate, Modified: packed}
		head.SetMode(f.mode)
		entry, err := w.CreateHeader(head)
		if err != nil {
			return nil, err
		}
		if _, err := entry.Write(f.body); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return out.Bytes(), err
}

func tarred(folder string, files []file) ([]byte, error) {
	var out bytes.Buffer
	packer := gzip.NewWriter(&out)
	w := tar.NewWriter(packer)
	for _, f := range files {
		if err := w.WriteHeader(&tar.Header{Name: folder + "/" + f.name, Mode: int64(f.mode), Size: int64(len(f.body)), ModTime: packed}); err != nil {
			return nil, err
		}
		if _, err := w.Write(f.body); err != nil {
			return nil, err
		}
	}
	err := errors.Join(w.Close(), packer.Close())
	return out.Bytes(), err
}

//go:build unix

package deliver

import (
	"io/fs"
	"os"
	"syscall"
)

// keepOwner gives a file the owner and group of another.
func keepOwner(file *os.File, other fs.FileInfo) error {
	want, ok := other.Sys().(*syscall.Stat_t)
	if !ok {
		return nil
	}
	has, err := file.Stat()
	if err != nil {
		return err
	}
	if now, ok := has.Sys().(*syscall.Stat_t); ok && now.Uid == want.Uid && now.Gid == want.Gid {
		return nil
	}
	return file.Chown(int(want.Uid), int(want.Gid))
}

// syncFolder makes a rename last through a power cut, where the file system
// can promise that.
func syncFolder(dir string) {
	if folder, err := os.Open(dir); err == nil {
		_ = folder.Sync()
		_ = folder.Close()
	}
}

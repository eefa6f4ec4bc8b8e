package cli

import (
	"bufio"
	"os"
	"path/filepath"
)

// A shardFile is a file of a shard that is not yet in place.
type shardFile struct {
	name string // as the user knows it
	file *os.File
	out  *bufio.Writer
}

// createShardFile creates a file in a folder that is not yet in place. shown is the name of the
// folder that the user knows.
func createShardFile(folder, shown, name string) (*shardFile, error) {
	f, err := os.Create(filepath.Join(folder, name))
	if err != nil {
		return nil, writeError(filepath.Join(shown, name), err)
	}
	return &shardFile{filepath.Join(shown, name), f, bufio.NewWriterSize(f, 1<<16)}, nil
}

// Write writes to the file.
func (w *shardFile) Write(b []byte) (int, error) {
	n, err := w.out.Write(b)
	if err != nil {
		err = writeError(w.name, err)
	}
	return n, err
}

// Close flushes, syncs and closes the file.
func (w *shardFile) Close() error {
	err := w.out.Flush()
	if err == nil {
		err = w.file.Sync()
	}
	if cerr := w.file.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return writeError(w.name, err)
	}
	return nil
}

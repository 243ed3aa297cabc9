package main

import "io"

// An output is where the result goes. It keeps the first write that failed until the end, whoever wrote, and says there what it
// was: the makers of help and completion would say it on their own, or not at all.
type output struct {
	to      io.Writer
	written bool
	failed  error
}

// Write implements [io.Writer]. After a failure nothing more is written, so that no gap is papered over.
func (o *output) Write(text []byte) (int, error) {
	if o.failed == nil {
		o.written = true
		_, o.failed = o.to.Write(text)
	}
	return len(text), nil
}

// finish gives the first failure. Some file systems tell of a full disk only when a file is closed, so it is closed here.
func (o *output) finish() error {
	if file, ok := o.to.(io.Closer); ok && o.written && o.failed == nil {
		o.failed = file.Close()
	}
	return o.failed
}

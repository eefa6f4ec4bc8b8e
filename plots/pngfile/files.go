package pngfile

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"slices"
	"sync"
	"sync/atomic"

	"loamledger/plots"
)

// Files are the encoded pictures of one chart.
type Files struct {
	Whole []byte // the chart with its heading, for use on its own
	Bare  []Bare // its parts in order, without headings, for a page
}

// A Bare is an encoded picture without a heading, and its size.
type Bare struct {
	PNG             []byte
	WidthPx, HighPx int
}

// DrawFiles draws every chart and its parts on the given number of goroutines, at
// least one; results are in the order of the charts and do not depend on the
// number. The error is that of ctx.
func DrawFiles(ctx context.Context, charts []plots.Chart, workers int) ([]Files, error) {
	out := make([]Files, len(charts))
	var tasks []task
	for i := range charts {
		tasks = append(tasks, tasksOf(&charts[i], &out[i])...)
	}
	// The largest first, so that no goroutine starts one at the end.
	slices.SortStableFunc(tasks, func(a, b task) int { return cmp.Compare(len(b.chart.Panels), len(a.chart.Panels)) })
	var next atomic.Int64
	var wg sync.WaitGroup
	errs := make([]error, min(max(workers, 1), len(tasks)))
	for w := range errs {
		wg.Go(func() {
			var d drawer
			for i := int(next.Add(1)) - 1; i < len(tasks) && errs[w] == nil; i = int(next.Add(1)) - 1 {
				if errs[w] = ctx.Err(); errs[w] == nil {
					errs[w] = tasks[i].do(&d)
				}
			}
		})
	}
	wg.Wait()
	return out, errors.Join(errs...)
}

// A task is one chart to draw; whole and bare receive the results, nil to discard
// them.
type task struct {
	chart *plots.Chart
	whole *[]byte
	bare  *Bare
}

// tasksOf returns the tasks of c. A chart of one part is drawn once.
func tasksOf(c *plots.Chart, to *Files) []task {
	parts := c.Parts()
	to.Bare = make([]Bare, len(parts))
	if len(parts) == 1 {
		return []task{{c, &to.Whole, &to.Bare[0]}}
	}
	tasks := []task{{c, &to.Whole, nil}}
	for k := range parts {
		tasks = append(tasks, task{&parts[k], nil, &to.Bare[k]})
	}
	return tasks
}

func (t *task) do(d *drawer) error {
	p := d.draw(t.chart)
	var b bytes.Buffer
	if t.whole != nil {
		if err := p.Write(&b); err != nil {
			return err
		}
		*t.whole = bytes.Clone(b.Bytes())
		b.Reset()
	}
	if t.bare == nil {
		return nil
	}
	t.bare.WidthPx, t.bare.HighPx = p.BareSize()
	err := p.WriteBare(&b)
	t.bare.PNG = b.Bytes()
	return err
}

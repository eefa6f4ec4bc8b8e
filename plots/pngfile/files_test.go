package pngfile

import (
	"bytes"
	"context"
	"errors"
	"reflect"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// TestDrawFiles draws charts of one part and of several on three goroutines:
// the bytes are those of each chart drawn by itself.
func TestDrawFiles(t *testing.T) {
	charts := plots.Charts(sample.Study(sample.Options{Strategies: 10, Zones: 1, Years: 1}))[2:5]
	want := make([]Files, len(charts))
	single, several := 0, 0
	for i := range charts {
		var b bytes.Buffer
		if err := Draw(&charts[i]).Write(&b); err != nil {
			t.Fatal(err)
		}
		want[i].Whole = b.Bytes()
		parts := charts[i].Parts()
		if len(parts) == 1 {
			single++
		} else {
			several++
		}
		for k := range parts {
			var b bytes.Buffer
			p := Draw(&parts[k])
			if err := p.WriteBare(&b); err != nil {
				t.Fatal(err)
			}
			wide, high := p.BareSize()
			want[i].Bare = append(want[i].Bare, Bare{b.Bytes(), wide, high})
		}
	}
	if single == 0 || several == 0 {
		t.Fatalf("%d charts of one part and %d of several; the test wants both", single, several)
	}
	got, err := DrawFiles(context.Background(), charts, 3)
	if err != nil {
		t.Fatal(err)
	}
	for i := range charts {
		if !reflect.DeepEqual(got[i], want[i]) {
			t.Errorf("%s: other bytes than drawn by itself", charts[i].Name)
		}
	}
}

func TestDrawFilesIsInterrupted(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	charts := plots.Charts(sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 1}))
	if _, err := DrawFiles(ctx, charts, 2); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that of the context", err)
	}
}

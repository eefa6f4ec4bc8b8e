package accountsfile

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
)

// ManifestVersion is the version of the layout of a shard.
const ManifestVersion = 1

// An Input is a file that results rest on, by its name without folders.
type Input struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

// A Work says what results are made of: equal works give equal results.
type Work struct {
	Program   string     `json:"program"` // version of loamledger
	Name      string     `json:"name"`    // of the program of measures
	Seed      uint64     `json:"seed"`
	Units     string     `json:"units"` // of printed output: us or si; files are always SI
	AllMonths bool       `json:"all_months"`
	Money     *MoneyWork `json:"money,omitempty"` // nil without rates
	Inputs    []Input    `json:"inputs"`
}

// A MoneyWork says by which rates the water of accounts is billed.
type MoneyWork struct {
	Rates    string `json:"rates"` // their name
	Currency string `json:"currency"`
	Prices   string `json:"prices,omitempty"` // day whose prices count; empty if they have no dates
	Meter    string `json:"meter"`            // what the meter serves: mixed or irrigation
}

// Same reports whether two works give equal results.
func (w *Work) Same(o *Work) bool {
	return w.Program == o.Program && w.Name == o.Name && w.Seed == o.Seed && w.Units == o.Units &&
		w.AllMonths == o.AllMonths && slices.Equal(w.Inputs, o.Inputs)
}

// Counts reconcile accounts: In is Done + Failed + Excluded.
type Counts struct {
	In       int `json:"in"`
	Done     int `json:"done"`
	Failed   int `json:"failed"`
	Excluded int `json:"excluded"`
	Rows     int `json:"result_rows"`
}

// Add adds counts.
func (c *Counts) Add(o Counts) {
	c.In += o.In
	c.Done += o.Done
	c.Failed += o.Failed
	c.Excluded += o.Excluded
	c.Rows += o.Rows
}

// A Manifest says what a finished shard is.
type Manifest struct {
	Layout  int      `json:"layout"`
	Shard   int      `json:"shard"` // from 0
	Of      int      `json:"of"`
	Work    Work     `json:"work"`
	Counts  Counts   `json:"accounts"`
	Outputs []Output `json:"outputs"`
}

// An Output is a file of a shard.
type Output struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// WriteManifest writes m as JSON.
func WriteManifest(w io.Writer, m *Manifest) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(m)
}

// ReadManifest reads what [WriteManifest] wrote. The error says why it is none.
func ReadManifest(r io.Reader) (*Manifest, error) {
	var m Manifest
	d := json.NewDecoder(io.LimitReader(r, 64<<20))
	d.DisallowUnknownFields()
	if err := d.Decode(&m); err != nil {
		return nil, fmt.Errorf("not a manifest of a shard: %w", err)
	}
	switch c := &m.Counts; {
	case m.Layout != ManifestVersion:
		return nil, fmt.Errorf("the manifest has layout %d; this loamledger reads %d", m.Layout, ManifestVersion)
	case m.Of < 1 || m.Shard < 0 || m.Shard >= m.Of:
		return nil, fmt.Errorf("shard %d of %d is not possible", m.Shard, m.Of)
	case c.In != c.Done+c.Failed+c.Excluded:
		return nil, fmt.Errorf("%d accounts are not the sum of %d done, %d failed and %d excluded", c.In, c.Done, c.Failed, c.Excluded)
	}
	return &m, nil
}

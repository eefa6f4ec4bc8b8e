package cli

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	_ "image/jpeg" // a logo may be a JPEG file
	"image/png"
	"io"

	"loamledger/plots"
	"loamledger/weather/diag"
)

// The bounds of a logo: a first sheet needs no more, and a file may be anybody's.
const (
	maxLogoBytes = 4 << 20
	maxLogoPx    = 4000 // on either side
)

// readLogo reads the logo that the scenario names, if any, as a plain PNG file.
func (l *loaded) readLogo(scenario string) error {
	if l.Scenario.Prepared == nil || l.Scenario.Prepared.Logo == nil {
		return nil
	}
	file := l.Scenario.Prepared.Logo
	f, err := l.openAt(beside(scenario, file.Name), file.Pos)
	if err != nil {
		return err
	}
	defer f.Close()
	refuse := func(format string, args ...any) error {
		return &diag.Error{Code: diag.WrongShape, Pos: file.Pos, Msg: fmt.Sprintf("prepared_by: logo "+format, args...),
			Fix: "save it as a PNG or JPEG file of at most 4 MB and 4000 pixels on a side"}
	}
	data, err := io.ReadAll(io.LimitReader(f, maxLogoBytes+1))
	if err != nil {
		return err
	}
	if len(data) > maxLogoBytes {
		return refuse("is larger than 4 MB")
	}
	c, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return refuse("is not a picture")
	}
	if c.Width > maxLogoPx || c.Height > maxLogoPx || c.Width == 0 || c.Height == 0 {
		return refuse("has %d by %d pixels", c.Width, c.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return refuse("is a damaged %s file", kind)
	}
	// On white, in eight bits: what every page can show.
	plain := image.NewNRGBA(image.Rect(0, 0, c.Width, c.Height))
	draw.Draw(plain, plain.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(plain, plain.Rect, img, img.Bounds().Min, draw.Over)
	var b bytes.Buffer
	if err := png.Encode(&b, plain); err != nil {
		return err
	}
	l.logo = &plots.Picture{PNG: b.Bytes(), WidthPx: c.Width, HighPx: c.Height}
	return nil
}

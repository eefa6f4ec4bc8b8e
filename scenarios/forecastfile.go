package scenarios

// PutForecastFile names the forecast file in a scenario that is not yet built,
// and the file that describes its layout, empty for none. It replaces the
// file that the scenario names, with its layout, and keeps synthetic forecasts,
// which then serve the record only.
func PutForecastFile(root *Node, name, layoutFile string) {
	if root == nil || root.Kind != Map {
		return
	}
	word := func(text string) *Node { return &Node{Kind: Scalar, Text: text} }
	group := &Node{Kind: Map, Entries: []Entry{{Key: "file", Value: word(name)}}}
	if layoutFile != "" {
		group.Entries = append(group.Entries, Entry{Key: "layout_file", Value: word(layoutFile)})
	}
	for i := range root.Entries {
		e := &root.Entries[i]
		if e.Key != "forecast" {
			continue
		}
		if made := e.Value.Get("synthetic"); made != nil {
			group.Entries = append(group.Entries, Entry{Key: "synthetic", Value: made})
		}
		group.Pos, e.Value = e.Pos, group
		return
	}
	root.Entries = append(root.Entries, Entry{Key: "forecast", Value: group})
}

package layout

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// licensesFile holds the licenses of everything that is in the program. A
// release includes it.
const licensesFile = ".ci/licenses.txt"

// A linked module is part of the program on some system.
type linked struct{ path, version, dir string }

// linkedModules lists the modules in the program on the systems that people use.
func linkedModules(t *testing.T) []linked {
	t.Helper()
	found := map[string]linked{}
	for _, system := range []string{"linux", "darwin", "windows"} {
		cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}",
			module+"cmd/loamledger")
		cmd.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		out, err := cmd.Output()
		if err != nil {
			t.Fatal("go list: ", err)
		}
		for line := range strings.Lines(string(out)) {
			if f := strings.Split(strings.TrimSpace(line), "\t"); len(f) == 3 {
				found[f[0]] = linked{f[0], f[1], f[2]}
			}
		}
	}
	if len(found) < 20 {
		t.Fatalf("only %d modules", len(found))
	}
	var list []linked
	for _, path := range slices.Sorted(maps.Keys(found)) {
		list = append(list, found[path])
	}
	return list
}

// licenseKinds recognizes licenses by what all copies of them say. All permit
// use in a program under the MIT license.
var licenseKinds = []struct{ kind, says string }{
	{"OFL-1.1", "SIL OPEN FONT LICENSE Version 1.1"},
	{"Apache-2.0", "Apache License Version 2.0"},
	{"FTL", "The FreeType Project LICENSE"},
	{"FTL or GPL", "either under the FreeType License"},
	{"FTL or GPL", "Use of the Freetype-Go software is subject to your choice of exactly one of"},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy of this software"},
	{"BSD-3-Clause", "Neither the name of"},
	{"BSD-2-Clause", "Redistribution and use in source and binary forms"},
}

func licenseKind(text string) string {
	flat := strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "* ", "")
	for _, k := range licenseKinds {
		if strings.Contains(flat, k.says) {
			return k.kind
		}
	}
	return ""
}

// licenseText returns the kinds and the texts of the licenses in a folder.
func licenseText(t *testing.T, dir string) (kinds []string, text string) {
	t.Helper()
	for _, pattern := range []string{"LICENSE*", "COPYING*", "NOTICE*", "PATENTS*", "THIRD_PARTY_LICENSES*/*", "licenses/ftl.txt"} {
		names, _ := filepath.Glob(filepath.Join(dir, pattern))
		for _, name := range names {
			if info, err := os.Stat(name); err != nil || info.IsDir() {
				continue
			}
			b, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			rel, _ := filepath.Rel(dir, name)
			lines := strings.Split(strings.TrimSpace(strings.ReplaceAll(string(b), "\r\n", "\n")), "\n")
			for i := range lines {
				lines[i] = strings.TrimRight(lines[i], " \t")
			}
			text += fmt.Sprintf("\n-- %s\n\n%s\n", filepath.ToSlash(rel), strings.Join(lines, "\n"))
			if kind := licenseKind(string(b)); kind != "" && !slices.Contains(kinds, kind) {
				kinds = append(kinds, kind)
			}
		}
	}
	return kinds, text
}

// The file of licenses names every module in the program, with its version and
// the text of its license, and nothing else. UPDATE=1 writes it.
func TestLicenses(t *testing.T) {
	var list, texts strings.Builder
	add := func(name, dir string) {
		kinds, text := licenseText(t, dir)
		if len(kinds) == 0 {
			t.Errorf("%s has no license that is known here: read it, and add it to licenseKinds or choose another library", name)
		}
		fmt.Fprintf(&list, "%s: %s\n", name, strings.Join(kinds, ", "))
		fmt.Fprintf(&texts, "\n%s\n%s%s", strings.Repeat("=", 80), name+"\n", text)
	}
	for _, m := range linkedModules(t) {
		add(m.path+" "+m.version, m.dir)
	}
	// The version of Go is that of whoever builds the program; its license is always the same.
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal("go env: ", err)
	}
	add("the Go standard library and runtime", strings.TrimSpace(string(goroot)))
	want := "Licenses of what is in loamledger, beside its own LICENSE. Written by UPDATE=1 go test ./cmd/internal/layout -run TestLicenses.\n\n" +
		list.String() + texts.String()
	name := filepath.Join(root(t), filepath.FromSlash(licensesFile))
	if os.Getenv("UPDATE") == "1" {
		if err := os.WriteFile(name, []byte(want), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile(name)
	if err != nil || string(got) != want {
		t.Errorf("%s is not up to date (%v): UPDATE=1 go test ./cmd/internal/layout -run TestLicenses", licensesFile, err)
	}
}

package names

import "testing"

// Hand: each pair is one name, typed in two ways; é is one rune or two.
func TestSameName(t *testing.T) {
	for a, b := range map[string]string{
		"Front lawn": "front-lawn", "frontlawn": "front  lawn", "caf\u00e9 bed": "cafe\u0301 bed", "St. Augustine": "st augustine",
		"clay loam": "clay_loam", "zone 1-2": "Zone 1 2", "\uff41rea": "area", "zone 1": "zone1", "!!": "!!",
	} {
		if Key(a) != Key(b) {
			t.Errorf("%q and %q have keys %q and %q", a, b, Key(a), Key(b))
		}
	}
}

func TestOtherName(t *testing.T) {
	for a, b := range map[string]string{"zone 1-2": "zone 12", "lawn": "lawns", "bed A": "bed B", "cafe": "caf\u00e9", "!!": "??", "": "a"} {
		if Key(a) == Key(b) {
			t.Errorf("%q and %q are the same name", a, b)
		}
	}
}

func TestFind(t *testing.T) {
	known := []string{"front lawn", "bed 1", "bed-2", "bed 2", ""}
	for name, want := range map[string]int{"front lawn": 0, "Front-Lawn": 0, "bed1": 1, "bed-2": 2, "bed 2": 3, "Bed 2": -1, "": 4, "x": -1} {
		if got := Find(name, known); got != want {
			t.Errorf("Find(%q) = %d, want %d", name, got, want)
		}
	}
}

package layout

import (
	"os"
	"os/exec"
	"testing"
)

// The engine must run in a web page as well.
func TestPurePackagesBuildForWasm(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the standard library for another system")
	}
	pkgs := packages(t)
	args := []string{"build"}
	for _, p := range pure {
		if pkgs[p.path] != nil {
			args = append(args, module+p.path)
		}
	}
	cmd := exec.Command("go", args...)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("go %v: %v\n%s", args, err, out)
	}
}

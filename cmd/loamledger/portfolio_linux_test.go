package main

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// manyProgram is a program whose accounts take little time each.
const manyProgram = `portfolio: 1
name: many
stations: [{name: dry, file: weather.csv, latitude: 38.9, longitude: -120, elevation: 490 m}]
as_found: {scale: 40% to 100% to 250%}
zones: [{name: lawn, area: 60 to 180 m2, plant: tall fescue, soil: loam, strips: 4, sprinkler: {kind: spray, uniformity: 40% to 70%}}]
programs: [{name: p, days: [mon, thu], minutes: {lawn: 20}}]
strategies: [{name: as found, programs: p}, {name: monthly, like: as found, monthly: auto}]
`

// manyAccounts writes a program and a table of n accounts.
func manyAccounts(t *testing.T, dir string, n int) (program, table string) {
	t.Helper()
	var rows, weather strings.Builder
	rows.WriteString("account,area (m2)\n")
	for i := range n {
		fmt.Fprintf(&rows, "%06d,%d\n", i*7919%999983, 80+i%90)
	}
	weather.WriteString("date,tmax_c,tmin_c,rain_mm,eto_mm\n")
	for i := range 730 {
		d := time.Date(2013, 1, 1+i, 0, 0, 0, 0, time.UTC)
		tmax, rain, eto := 14, 0.0, 2.0
		if m := d.Month(); m >= 5 && m <= 9 {
			tmax, eto = 31, 6.5
		} else if i%5 == 0 {
			rain, eto = 9, 1.1
		}
		fmt.Fprintf(&weather, "%s,%d,%d,%g,%g\n", d.Format(time.DateOnly), tmax+i%4, tmax-11-i%3, rain, eto)
	}
	program, table = filepath.Join(dir, "program.yaml"), filepath.Join(dir, "accounts.csv")
	for name, text := range map[string]string{program: manyProgram, table: rows.String(),
		filepath.Join(dir, "weather.csv"): weather.String()} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return program, table
}

// asCommand returns the program with the given arguments.
func asCommand(args ...string) (*exec.Cmd, *bytes.Buffer) {
	var b bytes.Buffer
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), asProgram+"=1")
	cmd.Stdout, cmd.Stderr = &b, &b
	return cmd, &b
}

// finishedShards returns the finished shards of a folder with the times of their manifests.
func finishedShards(t *testing.T, folder string) map[string]time.Time {
	t.Helper()
	out := map[string]time.Time{}
	found, err := filepath.Glob(filepath.Join(folder, "shard-*", "manifest.json"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range found {
		info, err := os.Stat(name)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(filepath.Dir(name))] = info.ModTime()
	}
	return out
}

// laterThan says when a folder has more than n finished shards, and some time has passed
// since.
func laterThan(folder string, n int, wait time.Duration) <-chan time.Time {
	out := make(chan time.Time, 1)
	go func() {
		for range 60_000 {
			if found, err := filepath.Glob(filepath.Join(folder, "shard-*", "manifest.json")); err != nil || len(found) > n {
				break
			}
			time.Sleep(time.Millisecond)
		}
		time.Sleep(wait)
		out <- time.Now()
	}()
	return out
}

// However often a portfolio is killed, there is no output until it is complete, a shard that is
// finished is not run again, and the end is as if nothing had happened.
func TestPortfolioKilled(t *testing.T) {
	dir := folder(t)
	program, table := manyAccounts(t, dir, 4500)
	whole, out := filepath.Join(dir, "whole"), filepath.Join(dir, "out")
	cmd, text := asCommand("portfolio", table, "--program", program, "--out", whole)
	start := time.Now()
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	takes := time.Since(start)
	rng := rand.New(rand.NewPCG(1, 2))
	shards := out + ".shards"
	killed, kept := 0, 0
	for {
		before := finishedShards(t, shards)
		cmd, text := asCommand("portfolio", table, "--program", program, "--out", out)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		done := make(chan error, 1)
		go func() { done <- cmd.Wait() }()
		// The first is killed when it has begun, the others at some time after another shard is finished, so that
		// the end comes on any machine.
		early := time.Duration(float64(takes) * 0.1 * rng.Float64())
		ripe := time.After(early)
		if killed > 0 {
			ripe = laterThan(shards, len(before), early)
		}
		select {
		case err := <-done:
			if err != nil {
				t.Fatalf("%v\n%s", err, text)
			}
			a, b := tree(t, whole), tree(t, out)
			if len(a) == 0 || !maps.Equal(a, b) {
				t.Error("a run that was killed gives other files")
			}
			if _, err := os.Lstat(shards); err == nil {
				t.Error("the shards are left")
			}
			t.Logf("killed %d times, %d finished shards were kept", killed, kept)
			if killed == 0 || kept == 0 {
				t.Errorf("killed %d times, %d shards kept: nothing was tested", killed, kept)
			}
			return
		case <-ripe:
			if err := cmd.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
				t.Fatal(err)
			}
			<-done
			killed++
		}
		if _, err := os.Lstat(out); err == nil {
			continue // it was complete
		}
		after := finishedShards(t, shards)
		for name, when := range before {
			if !after[name].Equal(when) {
				t.Errorf("%s was run again", name)
			}
			kept++
		}
	}
}

// slurm starts a real Slurm on this machine and returns the environment of its commands.
func slurm(t *testing.T) []string {
	t.Helper()
	const script = "../../../shared/slurm/one-node.sh"
	if _, err := os.Stat(script); err != nil {
		t.Skip("the script that starts Slurm on one machine is not beside this checkout")
	}
	if os.Getuid() != 0 {
		t.Skip("Slurm's daemons need root")
	}
	for _, name := range []string{"sbatch", "slurmctld", "slurmd", "munged", "scontrol"} {
		_, err := exec.LookPath(name)
		if _, serr := os.Stat("/usr/sbin/" + name); err != nil && serr != nil {
			t.Skipf("%s is not installed: apt-get install slurm-wlm munge", name)
		}
	}
	dir := t.TempDir()
	path := "PATH=" + os.Getenv("PATH") + ":/usr/sbin"
	start := exec.Command("bash", script, "start", dir)
	start.Env = append(os.Environ(), path)
	var told bytes.Buffer
	start.Stderr = &told
	out, err := start.Output()
	if err != nil {
		t.Skipf("Slurm does not start here: %v\n%s", err, told.String())
	}
	t.Cleanup(func() {
		stop := exec.Command("bash", script, "stop", dir)
		stop.Env = append(os.Environ(), path)
		if err := stop.Run(); err != nil {
			t.Log("Slurm does not stop:", err)
		}
	})
	conf := strings.TrimPrefix(strings.TrimSpace(string(out)), "export ")
	return append(os.Environ(), path, conf)
}

// A real Slurm array, from the job file that is shipped: one task is killed and one canceled;
// merge names the missing shards, these alone are submitted again, and the result is that of one
// run.
func TestSlurmArray(t *testing.T) {
	env := slurm(t)
	dir := t.TempDir()
	program, table := manyAccounts(t, dir, 6000)
	whole, shards, joined := filepath.Join(dir, "whole"), filepath.Join(dir, "shards"), filepath.Join(dir, "joined")
	cmd, text := asCommand("portfolio", table, "--program", program, "--out", whole)
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	run := func(name string, args ...string) string {
		t.Helper()
		cmd := exec.Command(name, args...)
		cmd.Env = append(env, asProgram+"=1", "LOAMLEDGER="+absolute(t, os.Args[0]), "ACCOUNTS="+table, "PROGRAM="+program, "SHARDS="+shards,
			"COUNT=4")
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%s %v: %v\n%s", name, args, err, out)
		}
		return strings.TrimSpace(string(out))
	}
	job := absolute(t, "../../scenarios/examples/portfolio/slurm.sh")
	submit := func(array string) string { return run("sbatch", "--parsable", "--export=ALL", "--array="+array, job) }
	// ended waits until no task of a job is left in the queue.
	ended := func(id string) {
		for run("squeue", "-h", "-j", id, "-o", "%T") != "" {
			time.Sleep(200 * time.Millisecond)
		}
	}
	id := submit("0-3")
	killed := ""
	for killed == "" { // until a task runs
		for _, line := range strings.Fields(run("squeue", "-h", "-r", "-j", id, "-t", "RUNNING", "-o", "%K")) {
			killed = line
		}
		time.Sleep(50 * time.Millisecond)
	}
	run("scancel", "--signal=KILL", "--full", id+"_"+killed)
	for _, line := range strings.Fields(run("squeue", "-h", "-r", "-j", id, "-t", "PENDING", "-o", "%K")) {
		run("scancel", id+"_"+line)
		break
	}
	ended(id)
	cmd, text = asCommand("portfolio", "merge", shards, "--out", joined)
	if err := cmd.Run(); err == nil {
		t.Fatalf("no shard is missing though task %s was killed", killed)
	}
	_, missing, found := strings.Cut(text.String(), "shards are missing: ")
	missing, _, _ = strings.Cut(missing, "\n")
	if !found {
		t.Fatalf("merge does not say what is missing:\n%s", text)
	}
	t.Logf("task %s was killed; missing: %s", killed, missing)
	done := finishedShards(t, shards)
	ended(submit(missing))
	for name, when := range finishedShards(t, shards) {
		if was, before := done[name]; before && !was.Equal(when) {
			t.Errorf("%s was run again", name)
		}
	}
	cmd, text = asCommand("portfolio", "merge", shards, "--out", joined)
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if a, b := tree(t, whole), tree(t, joined); len(a) == 0 || !maps.Equal(a, b) {
		t.Error("the shards of Slurm's tasks give other files than one run")
	}
}

func absolute(t *testing.T, name string) string {
	t.Helper()
	full, err := filepath.Abs(name)
	if err != nil {
		t.Fatal(err)
	}
	return full
}

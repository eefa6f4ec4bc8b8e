package cli

import (
	"fmt"
	"os"
	"strconv"
	"strings"

	"loamledger/weather/diag"
)

// mostShards is the maximum number of shards.
const mostShards = 100_000

// A scheduler is a system that runs an array of jobs and gives each its number in a variable
// of the environment, from 0.
type scheduler struct{ name, variable string }

// schedulers is the one list of them. Only the number of a job is taken from the environment:
// the number of jobs that some of them set, too, is that of those submitted now, which after
// a failure are the failed ones alone.
func schedulers() []scheduler {
	return []scheduler{
		{"Slurm array", "SLURM_ARRAY_TASK_ID"},
		{"Kubernetes indexed Job", "JOB_COMPLETION_INDEX"},
		{"cloud batch array (AWS)", "AWS_BATCH_JOB_ARRAY_INDEX"},
		{"cloud batch array (Google Cloud)", "BATCH_TASK_INDEX"},
	}
}

// schedulerList lists the variables for help.
func schedulerList() string {
	var b strings.Builder
	for _, sch := range schedulers() {
		fmt.Fprintf(&b, "  %-26s %s\n", sch.variable, sch.name)
	}
	return strings.TrimRight(b.String(), "\n")
}

// A shardOf is one shard of several, from 0.
type shardOf struct{ i, n int }

// shard returns the shard that flags and environment ask for; nil for all.
func (o *portfolioOptions) shard() (*shardOf, error) {
	if o.Shard != "" {
		is, of, both := strings.Cut(o.Shard, "/")
		i, err := strconv.Atoi(is)
		n, nerr := strconv.Atoi(of)
		if !both || err != nil || nerr != nil || n < 1 || n > mostShards || i < 0 || i >= n {
			return nil, &usageError{diag.BadFlag, fmt.Sprintf("--shard %q is not valid", o.Shard), "write I/N, from 0/N to N-1/N, such as 0/4"}
		}
		return &shardOf{i, n}, nil
	}
	if o.Shards == 0 {
		return nil, nil
	}
	var names []string
	for _, sch := range schedulers() {
		names = append(names, sch.variable)
		text, set := os.LookupEnv(sch.variable)
		if !set {
			continue
		}
		i, err := strconv.Atoi(text)
		if err != nil || i < 0 || i >= o.Shards {
			return nil, &usageError{diag.BadFlag, fmt.Sprintf("%s is %q, which is not one of %d shards", sch.variable, text, o.Shards),
				fmt.Sprintf("number the jobs from 0 to %d", o.Shards-1)}
		}
		return &shardOf{i, o.Shards}, nil
	}
	return nil, &usageError{diag.MissingFlag, "--shards is given, but no scheduler says which shard this is",
		"write --shard I/N, or run this under a scheduler that sets " + strings.Join(names, ", ")}
}

package cli

import (
	"os"
	"runtime/debug"

	"loamledger/sim/replay"
)

// A large run holds hundreds of megabytes of plain numbers, which are cheap to
// scan: from largeZoneDays on, the collector runs at garbagePercent of garbage,
// where Go lets as much gather as is in use.
const (
	largeZoneDays  = 1_000_000
	garbagePercent = 15
)

// tidyOften makes the collector run more often before a large run, unless the user
// has set GOGC.
func tidyOften(job *replay.Job) {
	if os.Getenv("GOGC") == "" && len(job.Zones)*job.Weather.Days() >= largeZoneDays {
		debug.SetGCPercent(garbagePercent)
	}
}

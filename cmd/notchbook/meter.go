package main

import (
	"fmt"
	"time"
)

// meter tells how far the reading of the scans is, by bytes: of scans of a
// hundred kilobytes and of a gigabyte in one folder the number says nothing.
type meter struct {
	done, all int
	bytes     int64
	start     time.Time
}

func (r *reading) newMeter(scans []string) *meter {
	m := &meter{all: len(scans), start: time.Now()}
	for _, path := range scans {
		if file, err := r.folder.OpenScan(path); err == nil {
			m.bytes += file.Size
			file.Close()
		}
	}
	return m
}

// text is the line shown, as of so many bytes taken.
func (m *meter) text(taken int64) string {
	taken = min(taken, m.bytes)
	text := fmt.Sprintf("scans: %d of %d, %s of %s", m.done, m.all, size(taken), size(m.bytes))
	if spent := time.Since(m.start); spent > 2*time.Second && taken > 0 {
		left := time.Duration(float64(spent) * float64(m.bytes-taken) / float64(taken))
		text += ", " + span(left) + " left"
	}
	return text
}

// size is a number of bytes, decimal as disks are sold.
func size(n int64) string {
	switch {
	case n >= 1e9:
		return fmt.Sprintf("%.1f GB", float64(n)/1e9)
	case n >= 1e6:
		return fmt.Sprintf("%d MB", n/1e6)
	}
	return fmt.Sprintf("%d KB", (n+999)/1e3)
}

func span(d time.Duration) string {
	if d >= 2*time.Minute {
		return fmt.Sprintf("%d min", int(d.Round(time.Minute)/time.Minute))
	}
	return fmt.Sprintf("%d s", int(d.Round(time.Second)/time.Second))
}

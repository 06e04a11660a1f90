package main

import (
	"fmt"
	"time"

	"notchbook/render/bag"
	"notchbook/render/saying"
)

// info is what bag-info.txt says of the season: the reserved elements of RFC 8493
// first, then the season's own. What is not known is left out.
func (a *archiving) info(date time.Time) []bag.Element {
	first, last, days := a.days()
	info := []bag.Element{
		{Label: "External-Description", Value: a.description(first, last)},
		{Label: "Bagging-Date", Value: a.baggingDate(date)},
		{Label: "Bag-Software-Agent", Value: "notchbook " + number},
		{Label: "Season-Title", Value: a.season.Title},
		{Label: "Season-First-Day", Value: first},
		{Label: "Season-Last-Day", Value: last},
		{Label: "Season-Days", Value: count(days)},
		{Label: "Season-Sheets", Value: count(a.season.Tally.Sheets)},
		{Label: "Season-Exposures", Value: count(a.season.Tally.Exposures())},
		{Label: "Season-Notebooks", Value: count(len(a.season.Notebooks))},
		{Label: "Season-Scans", Value: a.scanned()},
	}
	if a.more > 0 {
		info = append(info, bag.Element{Label: "Season-Other-Files", Value: count(a.more)})
	}
	if a.absent > 0 {
		info = append(info, bag.Element{Label: "Season-Scans-Missing", Value: count(a.absent)})
	}
	if n := a.changed(); n > 0 {
		info = append(info, bag.Element{Label: "Season-Scans-Changed", Value: fmt.Sprintf("%d; data/%s/%s has the digests of before", n, bagRecord, formerName)})
	}
	if a.Public {
		info = append(info, bag.Element{Label: "Season-Private-Remarks", Value: "left out"})
	}
	seen := map[string]bool{}
	for _, o := range a.season.Outings {
		if o.Place != "" && !seen[o.Place] {
			seen[o.Place] = true
			info = append(info, bag.Element{Label: "Season-Place", Value: o.Place})
		}
	}
	return info
}

func count(n int) string { return fmt.Sprint(n) }

// days is the first and the last day of the notes whose dates are whole, and how
// many there are.
func (a *archiving) days() (first, last string, days int) {
	seen := map[string]bool{}
	for _, o := range a.season.Outings {
		if o.ISO == "" || seen[o.ISO] {
			continue
		}
		seen[o.ISO] = true
		if first == "" {
			first = o.ISO
		}
		first, last = min(first, o.ISO), max(last, o.ISO)
	}
	return first, last, len(seen)
}

// baggingDate is the date that was set, or the last day of the notes, as the book
// has it: the clock has no say in what a bag holds.
func (a *archiving) baggingDate(date time.Time) string {
	if date.IsZero() {
		return a.season.LastDay
	}
	return date.Format(time.DateOnly)
}

func (a *archiving) description(first, last string) string {
	text := "Field notes of photographs on sheet film, " + a.season.Title + ": " + plural(a.season.Tally.Sheets, "sheet", "sheets")
	switch {
	case first != "" && first == last:
		text += " of " + first
	case first != "":
		text += " from " + first + " to " + last
	}
	text += ", the notebooks as typed, the record compiled from them"
	if a.WithoutScans {
		return text + ", and a list of the scans"
	}
	return text + ", and the scans"
}

// changed is how many scans of the bag have other bytes than in an earlier record.
func (a *archiving) changed() (n int) {
	for _, s := range a.season.Scans {
		if saying.OtherBytes(s) != "" {
			n++
		}
	}
	return n
}

func (a *archiving) scanned() string {
	if a.copied.files == 0 {
		return "none"
	}
	text := fmt.Sprintf("%d, %s", a.copied.files, bag.Size(a.copied.bytes))
	if a.WithoutScans {
		text += ", left out; data/" + bagSums + " lists them"
	}
	return text
}

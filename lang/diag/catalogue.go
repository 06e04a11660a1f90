package diag

import "slices"

// The catalogue holds every rule that a diagnostic can name. A code is readable,
// says what is wrong, and is never given to another rule. Bad is a whole
// notebook that breaks the rule and Good its mended twin: both are compiled as
// tests, and explain prints them.
var catalogue = []Rule{
	// The text.
	{"not-text", Error, "The file is not plain text",
		"A notebook is plain text in UTF-8. A file with other bytes, or in UTF-16, is listed and not read.",
		"\xff\xfes\x00h\x00", "3A: 1/30 f16\n"},
	{"empty-notebook", Note, "The notebook is empty",
		"There is nothing in this file, so nothing of it is in the record.",
		"\n", "day: 2026-11-07\n"},
	{"notebook-unreadable", Error, "A notebook cannot be read",
		"A notebook that was named, on the command line or by a use line, is missing or may not be read. A use path is relative to the notebook that it stands in, and never leaves the season's folder.",
		"use: kti.md\n", "day: 2026-11-07\n"},
	{"use-in-circles", Error, "Notebooks use each other in a circle",
		"Each use line is followed before the notebook goes on, so two notebooks cannot each need the other first.",
		"use: notes.md\n", "day: 2026-11-07\n"},

	// Log lines.
	{"unknown-word", Error, "A word of the notation is misspelled",
		"The line begins like a log line, with a word that is nearly one of the notation. It is kept as typed and not read.",
		"shet 3A: 1/30 f16\n", "sheet 3A: 1/30 f16\n"},
	{"unknown-label", Error, "A label is mistyped",
		"The line begins with what is nearly a sheet's label, and terms follow. It is kept as typed and not read.",
		"1OA: Y8 1/30 f16\n", "10A: Y8 1/30 f16\n"},
	{"missing-colon", Error, "A colon is missing",
		"A log line is a word or a label, a colon, and terms. Without the colon it is prose, and nothing of it is checked.",
		"load 3A: slate\n3A Y8 1/30 f16\n", "3A: Y8 1/30 f16\n"},
	{"log-line-in-markup", Error, "A log line stands where none is read",
		"Headings, tables and numbered lists are prose. A log line stands on a line of its own, or in a list with plain bullets.",
		"## 3A: Y8 1/30 f16\n", "3A: Y8 1/30 f16\n"},
	{"wrapped-line", Error, "A log line was broken in two",
		"A log line is one source line, however long. What stands on the next line is prose.",
		"3A: Y8, N-1,\n1/30 f16\n", "3A: Y8, N-1, 1/30 f16\n"},
	{"hidden-by-fence", Error, "A block of code hides log lines",
		"Lines between fences (``` or ~~~) are never read, so that notes may show the notation. A fence that was never closed, or that was meant to strike something out, hides what follows it.",
		"~~~\n3A: 1/30 f16\n", "3A: 1/30 f16\n"},
	{"line-too-long", Error, "A log line is too long",
		"A log line of more than 64 KB is not read.",
		"", "3A: 1/30 f16\n"},
	{"bare-number", Error, "A number has no unit",
		"A bare 11 or 8 could be an aperture, a time or a zone. It is never guessed.",
		"3A: 1/30, 11\n", "3A: 1/30, f11\n"},
	{"letter-for-figure", Error, "A letter stands where a figure belongs",
		"The letters O, l and I look like the figures 0 and 1. The word is kept as typed and not read.",
		"3A: 1/3O f16\n", "3A: 1/30 f16\n"},
	{"nearly-a-term", Warning, "A word is nearly a term",
		"Words that are no term are kept as a remark. This one is a slip away from a term and was probably meant for it.",
		"3A: metred 1/15 f22, gave 1/8 f22\n", "3A: metered 1/15 f22, gave 1/8 f22\n"},
	{"own-word-unclear", Error, "A word of one's own cannot be used",
		"A word line makes one word stand for a log word (word: plate = sheet), a call line makes words stand for one term (call: orange = O21).",
		"word: plate = shet\n", "word: plate = sheet\n"},
	{"unclosed-remark", Warning, "A remark does not end",
		"A remark in brackets or quotation marks ends on its line. One that does not takes in everything behind it, settings too.",
		"3A: Y8 (gusts, 1/30 f16\n", "3A: Y8 (gusts) 1/30 f16\n"},
	{"two-settings", Error, "Two apertures or two times on one line",
		"A sheet gets one aperture and one time. A blank before a fraction makes it a time: f16 ½ is f/16 at half a second, f16½ half a stop past f/16.",
		"3A: f16 ½ 1/30\n", "3A: f16½ 1/30\n"},
	{"unclosed-strike", Warning, "Struck text does not end",
		"Text is struck between ~~ and ~~ on one line.",
		"3A: ~~1/30 1/15 f16\n", "3A: ~~1/30~~ 1/15 f16\n"},
	{"unknown-term", Warning, "A term means nothing here",
		"The term is one of the notation, but says nothing in a line of this kind. It is kept as a remark.",
		"3A: 1/30 f16 ISO 100\n", "3A: 1/30 f16 EI 100\n"},
	{"kept-as-typed", Note, "Lines are kept as typed",
		"Lines of this word are part of the record and of no computation.",
		"patch: 1\n", "3A: 1/30 f16\n"},

	// The kit.
	{"not-declared", Error, "Something is named that is not declared",
		"A lens, film, camera or filter is used by a name that no line declares, while others are declared, and no handbook knows it. Nothing is guessed of it.",
		"lens 210: 210 mm\n3A: 1/30 f16 lens 310\n", "lens 310: 310 mm\n3A: 1/30 f16 lens 310\n"},
	{"declared-twice", Warning, "A thing is declared twice",
		"The later line counts, for the whole season.",
		"lens 210: 210 mm\nlens 210: 209 mm\n", "lens 210: 210 mm\n"},
	{"colour-against-number", Warning, "A filter's colour and number disagree",
		"The number is a Wratten number of another colour. Which of the two is meant only the writer knows; the number is used.",
		"3A: green 25, 1/30 f16\n", "3A: red 25, 1/30 f16\n"},
	{"reciprocity-unclear", Error, "A reciprocity rule cannot be used",
		"A rule is a power law (t^1.31 over 1s) or a table in which both columns grow and no time gets shorter (2s=3s, 4s=7s).",
		"film slate: ISO 100, reciprocity 2s=1s\n", "film slate: ISO 100, reciprocity 2s=3s\n"},
	{"filter-not-declared", Note, "A filter's value is only the handbook's",
		"Published values for one filter differ by up to two thirds of a stop. A sheet is called off only outside the span of all of them; a value of your own is worth more.",
		"meter: EV 13\n3A: G11, f16 1/8\n", "filter G11: x4\nmeter: EV 13\n3A: G11, f16 1/8\n"},

	// Sheets.
	{"exposure-off", Error, "A sheet got too much or too little",
		"What was given differs from what the reading asked for, after filters, bellows, reciprocity and what was intended, by more than the tolerance: a warning below one stop, an error from one stop. A cause that is named fits the difference; it is never more than that.",
		"filter Y8: x2\nmeter: 1/60 f16\n3A: Y8, 1/125 f16\n", "filter Y8: x2\nmeter: 1/60 f16\n3A: Y8, 1/30 f16\n"},
	{"a-little-more", Note, "A sheet got a little more than asked",
		"Up to two thirds of a stop too much that no slip explains is taken for habit. State a tolerance to be stricter.",
		"meter: 1/60 f16\n3A: 1/60 f11½\n", "meter: 1/60 f16\n3A: 1/60 f16\n"},
	{"film-blind", Error, "The film does not see what the filter passes",
		"Orthochromatic film is blind to red, blue-sensitive film to everything but blue. Behind such a filter no factor is right.",
		"film plate: ortho, EI 12\nmeter: 1/8 f16\n3A: R25, 1s f16\n", "film plate: ortho, EI 12\nmeter: 1/8 f16\n3A: 1/8 f16\n"},
	{"film-nearly-blind", Warning, "The film sees little of what the filter passes",
		"The exposure becomes very long, and no published factor can be trusted.",
		"film plate: ortho, EI 12\nmeter: 1/8 f16\n3A: O21, 4s f16\n", "film plate: ortho, EI 12\nfilter O21: ortho x32\nmeter: 1/8 f16\n3A: O21, 4s f16\n"},
	{"speed-lacking", Error, "The shutter does not have this speed",
		"The lens is declared with the speeds of its shutter, and this is none of them: either the note or the kit is wrong.",
		"lens 210: 210 mm, shutter 1/5 1/10 1/25\n3A: 1/15 f16\n", "lens 210: 210 mm, shutter 1/5 1/10 1/25\n3A: 1/10 f16\n"},
	{"aperture-out-of-range", Error, "The lens does not have this aperture",
		"The lens is declared with its widest and smallest aperture, and this lies outside.",
		"lens 210: 210 mm, f5.6-f45\n3A: 1/30 f4\n", "lens 210: 210 mm, f5.6-f45\n3A: 1/30 f5.6\n"},
	{"extension-out-of-range", Error, "The camera does not have this extension",
		"The camera is declared with what its bellows can do, and this lies outside.",
		"camera field: 4x5, ext 75-380 mm\n3A: 1/30 f16 ext 420mm\n", "camera field: 4x5, ext 75-380 mm\n3A: 1/30 f16 ext 320mm\n"},
	{"settings-unchanged", Warning, "The settings stayed though the filter or extension changed",
		"Without a reading nobody can say which of the two sheets is off, but one of them is.",
		"filter R25: x8\n3A: 1/30 f16\n3B: R25, 1/30 f16\n", "filter R25: x8\n3A: 1/30 f16\n3B: R25, 1/4 f16\n"},
	{"film-in-holder", Warning, "Another film was loaded than is logged",
		"The holder side was loaded with one film and the sheet names another. The sheet is checked as logged.",
		"film slate: ISO 400\nfilm plate: ISO 12\nload 3A: slate\n3A: film plate, 1/30 f16\n", "film slate: ISO 400\nfilm plate: ISO 12\nload 3A: plate\n3A: 1/30 f16\n"},
	{"exposed-twice", Error, "A sheet was exposed twice",
		"The holder side was exposed before and not loaded since, so both exposures are on one sheet of film, and a sheet that was meant is blank.",
		"film slate: ISO 400\nload 3A 3B: slate\n3A: 1/30 f16\n3A: 1/60 f16\n", "film slate: ISO 400\nload 3A 3B: slate\n3A: 1/30 f16\n3B: 1/60 f16\n"},
	{"never-loaded", Warning, "A holder side was never loaded",
		"Other sides were loaded on this day, this one was not.",
		"film slate: ISO 400\nday: 2026-11-07\nload 3A: slate\n3B: 1/30 f16\n", "film slate: ISO 400\nday: 2026-11-07\nload 3A: slate\n3A: 1/30 f16\n"},
	{"loaded-twice", Warning, "A holder side was loaded twice",
		"The side was loaded and not exposed since. Which film is in it, and whether it was fogged, only the writer knows.",
		"film slate: ISO 400\nfilm plate: ISO 12\nload 3A: slate\nload 3A: plate\n", "film slate: ISO 400\nload 3A: slate\n"},
	{"side-unknown", Note, "It is left open which side is meant",
		"The line names several sides and means one of them. Until something settles it, each of them is of doubtful state. A holder line settles it: when one of two is stated not to be the one, it was the other.",
		"film slate: ISO 400\nload 3A 3B: slate\n3A or 3B: 1/30 f16\n", "film slate: ISO 400\nload 3A 3B: slate\n3A: 1/30 f16\n"},
	{"no-such-sheet", Error, "A line speaks of a sheet that was not logged",
		"Develop, scan and amend lines, and same, name sheets that stand above them.",
		"3A: 1/30 f16\ndevelop 4A: N\n", "3A: 1/30 f16\ndevelop 3A: N\n"},
	{"cause-not-in-settings", Note, "A sheet shows a fault that no setting explains",
		"A remark or a result line says that the film is black, clear, dense, thin or doubly exposed, but its settings are right or cannot be checked. The mistakes that leave no trace in settings and would look so are named: they fit, and no more is known.",
		"meter: 1/60 f16\n3A: 1/60 f16\nresult 3A: clear glass\n", "meter: 1/60 f16\n3A: 1/60 f16\nresult 3A: a keeper\n"},
	{"unchecked", Note, "A sheet could not be checked",
		"Something is not in the notes, and it is not guessed. The one fact that would settle it is named.",
		"3A: 1/30 f16\n", "meter: 1/30 f16\n3A: 1/30 f16\n"},
	{"light-implausible", Warning, "The reading does not fit the light",
		"The reading lies three stops or more from what is usual in the light that is stated: one of the two is a slip.",
		"film slate: EI 100\nlight: sun\nmeter: EV 9\n3A: 1/8 f8\n", "film slate: EI 100\nlight: sun\nmeter: EV 15\n3A: 1/125 f16\n"},
	{"date-ambiguous", Warning, "A date can be read in two ways",
		"Of 3/5/2026 nobody can say whether it is in March or in May. The text stays as typed and identifies the sheets; what needs the date, such as its place among the days, is left out.",
		"day: 3/5/2026, Moor\n", "day: 3 May 2026, Moor\n"},
	{"sun-not-up", Warning, "The sun was not in the sky",
		"Sun is stated, and on that day, at that time and place the sun stood below the horizon, whatever zone the clock kept.",
		"day: 2026-12-21, Moor 52.1N 1.3W\nlight: sun\nmeter: EV 14\n3A: 1/125 f11½ at 20:30\n", "day: 2026-06-21, Moor 52.1N 1.3W\nlight: sun\nmeter: EV 14\n3A: 1/125 f11½ at 12:30\n"},
	{"beyond-image-circle", Warning, "A movement leads out of the image circle",
		"The circle needed grows with rise, fall and shift; the lens's own grows at close focus. Corners beyond it stay dark.",
		"camera field: 4x5\nlens 90: 90 mm, circle 170 mm\n3A: 1/30 f16 rise 40\n", "camera field: 4x5\nlens 90: 90 mm, circle 216 mm\n3A: 1/30 f16 rise 20\n"},
	{"dates-out-of-order", Warning, "The days are out of order",
		"A day comes before the one above it in the same notebook.",
		"day: 2026-11-07\nday: 2026-10-07\n", "day: 2026-10-07\nday: 2026-11-07\n"},

	// Development.
	{"developed-otherwise", Warning, "A sheet was developed otherwise than asked",
		"The sheet asks for one development and got another.",
		"3A: 1/30 f16 N-1\ndevelop 3A: N\n", "3A: 1/30 f16 N-1\ndevelop 3A: N-1\n"},
	{"no-time-for", Note, "No developing time is declared",
		"The sheet asks for a development of which the kit has no time for its film.",
		"film slate: ISO 400, N 8:00\n3A: 1/30 f16 N-2\n", "film slate: ISO 400, N 8:00, N-2 5:00\n3A: 1/30 f16 N-2\n"},

	// Numbers.
	{"number-reused", Error, "A negative's number is given twice",
		"A number belongs to one negative for good. The sheet that has it first keeps it; the other stays without one.",
		"3A: 1/30 f16 neg 26-041\n3B: 1/30 f16 neg 26-041\n", "3A: 1/30 f16 neg 26-041\n3B: 1/30 f16 neg 26-042\n"},
	{"renumbered", Error, "A negative is given another number",
		"Sleeves, scans and prints go by the number, so the first stays. An amend line corrects a slip of the pen.",
		"3A: 1/30 f16 neg 26-041\nneg 3A: 26-042\n", "3A: 1/30 f16 neg 26-041\namend 3A: neg 26-042\n"},
	{"numbers-uneven", Error, "There are not as many numbers as sheets",
		"A neg line gives one number to each sheet that it names, in their order, or names the first and the last of a run.",
		"3A: 1/30 f16\n3B: 1/30 f16\nneg 3A 3B: 26-041\n", "3A: 1/30 f16\n3B: 1/30 f16\nneg 3A 3B: 26-041 to 26-042\n"},
	{"negative-without-entry", Warning, "A negative has no entry",
		"A line about a dry negative names one that no line above it logs: the entry is missing, or the label is a slip.",
		"3A: 1/30 f16 neg 26-041\nsleeve 26-040: binder 2, page 14\n", "3A: 1/30 f16 neg 26-041\nsleeve 26-041: binder 2, page 14\n"},

	// Scans.
	{"scan-missing", Warning, "A scan is not there",
		"A file that a scan line names is not in the season's folder. Where a pattern names files and none of them is there, it is only noted.",
		"3A: 1/30 f16\nscan 3A: lost.tif\n", "3A: 1/30 f16\n"},
	{"scan-unreadable", Warning, "A scan cannot be read",
		"The file is there, but it is no picture that can be shown: its link and its digest stay in the record.",
		"3A: 1/30 f16\nscan 3A: broken.tif\n", "3A: 1/30 f16\nscan 3A: good.tif\n"},
	{"scan-outside", Error, "A scan lies outside the season's folder",
		"Only files within the season's folder are looked at, so that the whole folder can be moved.",
		"3A: 1/30 f16\nscan 3A: ../elsewhere.tif\n", "3A: 1/30 f16\nscan 3A: good.tif\n"},
	{"scan-orphan", Note, "A scan belongs to no sheet",
		"There are scan files in the season's folder that no line names.",
		"3A: 1/30 f16\n", "3A: 1/30 f16\nscan 3A: good.tif\n"},
}

// Rules gives the catalogue in its order.
func Rules() []Rule { return slices.Clone(catalogue) }

var byCode = func() map[string]*Rule {
	m := map[string]*Rule{}
	for i := range catalogue {
		m[catalogue[i].Code] = &catalogue[i]
	}
	return m
}()

// Lookup finds a rule by its code; a code that is not in the catalogue gives a
// rule without text.
func Lookup(code string) Rule {
	if r := byCode[code]; r != nil {
		return *r
	}
	return Rule{Code: code}
}

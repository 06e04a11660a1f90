package record

// Card is the kit as it is taken along: small tables of what its things cost,
// computed once at home.
type Card struct {
	Title   string
	Filters []CardFilter
	Stacks  []CardStack // every two declared filters that cost something
	Lenses  []CardLens
	Films   []CardFilm
	Zones   []CardZone  // 0 to X
	Lights  []CardLight // brightest first
	Chosen  []string    // lights in which the kit has values of their own, daylight first; none where daylight is all
}

// CardFilter is a filter with what it costs.
type CardFilter struct {
	Name   string
	Stops  Figure
	Detail string // "×8"
	Per    []Fact // for a film class or a light: {"tungsten", "2⅓ stops"}
	Own    bool   // declared; else published, and Source says where
	Source string
}

// CardStack is two filters together.
type CardStack struct {
	First, Second string
	Stops         float64
}

// CardLens is a lens with what its extension costs and what it can do.
type CardLens struct {
	Name   string
	Facts  []Fact // apertures, shutter, tested speeds
	Widest float64
	Least  float64   // aperture values (Av) of its range; 0 where not declared
	Rows   []CardRow // extension: What is its length, Costs the stops
}

// CardFilm is a film with its rule for long times.
type CardFilm struct {
	Name  string
	Facts []Fact
	Rule  string
	Rows  []CardRow // What is metered, Costs what is given
}

// CardRow is a line of a small table.
type CardRow struct{ What, Costs, More string }

// CardZone is a zone and its stops from what was metered.
type CardZone struct {
	Zone  string
	Stops string
}

// CardLight is a light by the rule of sixteen: the aperture that goes with the
// time of one over the exposure index.
type CardLight struct {
	Name, Aperture, EV100, Source string
}

package text

import "notchbook/compile/record"

// did is what a scene's filters did beside its control.
func (p *page) did(c *record.Compared) {
	if c == nil {
		return
	}
	for _, f := range c.ByWhatIsSaid() {
		if len(f.Sheets) == 1 {
			p.row(f.Name+", "+f.Labels(), f.Says...)
			continue
		}
		p.row(f.Name, append([]string{"on " + f.Labels()}, f.Says...)...)
	}
	if c.Drift != "" {
		p.row("drift", c.Drift)
	}
	p.row("measured", c.How)
	if c.Forecast != nil {
		said := c.Forecast.Said()
		if p.held[c.Forecast.Held] {
			said = c.Forecast.Of() + "; how well it does: as above"
		}
		p.row("forecast", said)
		if p.held == nil {
			p.held = map[string]bool{}
		}
		p.held[c.Forecast.Held] = true
	}
}

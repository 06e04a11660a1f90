package text

import "notchbook/compile/record"

// did is what a scene's filters did beside its control.
func (p *page) did(c *record.Compared) {
	if c == nil {
		return
	}
	for _, f := range c.Sheets {
		p.row(f.Name+", "+f.Sheet.Label, f.Says...)
	}
	if c.Drift != "" {
		p.row("drift", c.Drift)
	}
	p.row("measured", c.How)
	if c.Forecast != nil {
		p.row("forecast", c.Forecast.Said())
	}
}

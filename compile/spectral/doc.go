// Package spectral forecasts what a colour filter does: what it costs on a film in a
// light, and how far sky, leaves, brick and skin move against grey once that is given.
//
// The exposure that film gets through a filter is the sum, over the spectrum, of light
// times filter times lens times sensitivity. All four are published curves at every ten
// nanometres, which lie beside this source with where they are from. The factor is the
// sum without the filter over the sum with it, for a subject that is grey. A subject
// weighs the sum by its own colour, and has moved by what it then gains or loses more
// than grey does.
//
// How good that is: over all filters in the published tables of the two films whose
// sensitivity is published, the forecast misses by 0.15 stop (root mean square) in
// daylight and in tungsten (TestAgainstThePublishedFactors prints every one). It is
// worth a third of a stop, and is quoted to that. Where the writer gives no curves of his
// own (Read), it holds no film but by its class and no filter but a representative sample;
// it holds no lens but the standard one; and what the writer has tested is better.
//
// How far subjects move has nothing published to be held against. That the pictures of the
// shipped season move alike (examples/draw) says only that both sum the same curves.
package spectral

// Package profiles answers one question: what is known before anybody describes their own house?
//
// It holds facts as data: YAML files embedded in the program, each entry with its source, and the small Go that reads
// them. Call [FindCircuit] for an appliance, [Defaults] for what is assumed when a home file is silent, [Demo] for a
// whole home to look at. The rest is tables of the trade: [Chemistries], [Engines], [Fuels], [Generators], [Motors],
// [Conductors], [PriceBands], [Cautions].
//
// A file is parsed when it is first asked for, and once. A file that does not parse is a programmer's error and panics;
// a test reads them all. Every function is safe for concurrent use and hands out its own copy of the slice; a
// [yaml.Node] or a slice inside an entry is shared and must be read only.
//
// A source is a standard with its table, a published list, "from memory" (a published value recalled, not re-read), or
// "common practice, no source".
package profiles

// Command beam plans the households of an NDJSON register as an Apache Beam pipeline:
// the transform of rationwright batch, a household's line to the line of its result.
// Reading, parting the work, trying again and writing are the engine's.
//
//	go run . -households village.ndjson -out lines.ndjson -- --days 14 --least cost
//
// runs in this process. Other runners take Beam's own flags before the two hyphens,
// such as -runner=flink -endpoint=HOST:PORT; behind them stand the flags of batch that
// say what is asked. Lines come in any order; their ids say whose they are.
package main

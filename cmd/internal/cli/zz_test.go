package cli
import ("testing";"context";"io")
func BenchmarkZZ(b *testing.B){ for b.Loop() { Main(context.Background(), []string{"check","/tmp/sp/inv/site.yaml"}, Streams{Out: io.Discard, Err: io.Discard}) } }

package hear_test
import ("testing";"fmt";"math";"os";"strconv";"heddle/hear")
func env(n string, d float64) float64 { if v:=os.Getenv(n); v!="" { f,_:=strconv.ParseFloat(v,64); return f }; return d }
func TestOracle(t *testing.T){
 hear.NVOver=env("OVER",hear.NVOver); hear.NVPow=env("POW",hear.NVPow); hear.NVDecay=env("DECAY",hear.NVDecay); hear.NVMiss=env("MISS",hear.NVMiss)
 for si,setting:=range []string{"clean","room","noise","bleed"} {
 tot,bad,oct:=map[int]int{},map[int]int{},map[int]int{}
 T,B:=0,0
 for k:=range *evalTakes {
  tk,r:=drawTake(*evalSeed*100000 + uint64(si)*10000 + uint64(k))
  x:=hear.Resample(samples(t,takeFile(t,tk,setting,r)),44100)
  for i,n:=range tk.played {
    l:=0.1
    if i+1<len(tk.played) { l=min(l,tk.played[i+1].onS-n.onS) }
    l=max(l,0.04)
    p:=hear.Oracle(x,n.onS+env("OFF",0.0),l,40,90)
    if p==0 {continue}
    tot[tk.program]++;T++
    d:=p-float64(n.key)-tk.cents/100
    if math.Abs(d)>0.5 { bad[tk.program]++;B++
      if math.Abs(math.Abs(d)-12)<0.5 {oct[tk.program]++}
      if *evalShow>0 { fmt.Printf("%s %s prog %d %.3f key %d vel %d len %.3f got %+.2f legato %v\n",setting,tk.name,tk.program,n.onS,n.key,n.velocity,l,d,n.legato) } }
  }
 }
 fmt.Printf("%s: %d/%d = %.4f ", setting,B,T,float64(B)/float64(T))
 for p:=24;p<=30;p++ { fmt.Printf(" %d:%d/%d(oct %d)",p,bad[p],tot[p],oct[p]) }
 fmt.Println()
 }
}

/* Plain loop over the step rule of an outage, to measure against: own code of this project, derived
   from the energy balance of the AC bus. Tiers change at the starts of steps; the time at which the
   battery is empty is solved within its step. Scenario outer (_scen) and time outer in blocks of
   512 (_time), in double (d_) and single (s_) precision.
   Build: gcc -O3 -fPIC -shared -o step_simulation_reference.so step_simulation_reference.c */
#include <math.h>
#define STEP(REAL) \
 REAL d0=lc[t]*ls[i], d1=ln[t]*ls[i], d2=lx[t]*ls[i], p=pv[t]*ps[i]; REAL all=d0+d1+d2; \
 REAL dem=d0+(e>s1[i]?d1:(REAL)0)+(e>s2[i]?d2:(REAL)0); \
 up = up>0 ? up : (p>=all ? (REAL)1 : (REAL)0); \
 REAL net=dem-p; REAL dis=net>0?net:0; dis=dis<pd[i]?dis:pd[i]; REAL ch=net<0?-net:0; ch=ch<pc[i]?ch:pc[i]; \
 REAL de=(ch*ec[i]-dis*ied[i]-idle[i])*dt; REAL e2=e+de; \
 REAL fr = e2<0 ? e/(-de) : (REAL)1; fr=up>0?fr:(REAL)0; \
 REAL srv=(dem-(net>0?net-dis:0))*fr; un+=(all-srv)*dt; \
 REAL ov=e2-cap[i]; ov=ov>0?ov:0; cu+= up>0 ? ov*iec[i] + ((net<0?-net:0)-ch)*dt : p*dt; \
 te = (te<0 && up>0 && e2<0) ? (REAL)(t*dt+fr*dt) : te; \
 REAL en=e2<cap[i]?e2:cap[i]; en=en>0?en:0; en=up>0?en:e; up=(up>0&&e2<0)?(REAL)0:up; e=en;
#define GEN(NAME,REAL) \
void NAME##_scen(int N,int T,REAL dt,const REAL*restrict lc,const REAL*restrict ln,const REAL*restrict lx,const REAL*restrict pv,const REAL*restrict ls,const REAL*restrict ps,const REAL*restrict cap,const REAL*restrict ec,const REAL*restrict iec,const REAL*restrict ied,const REAL*restrict pd,const REAL*restrict pc,const REAL*restrict idle,const REAL*restrict s1,const REAL*restrict s2,const REAL*restrict e0,REAL*restrict Te,REAL*restrict Un,REAL*restrict Cu,REAL*restrict E){ \
 for(int i=0;i<N;i++){ REAL e=e0[i],up=1,te=-1,un=0,cu=0; for(int t=0;t<T;t++){ STEP(REAL) } Te[i]=te;Un[i]=un;Cu[i]=cu;E[i]=e; } } \
void NAME##_time(int N,int T,REAL dt,const REAL*restrict lc,const REAL*restrict ln,const REAL*restrict lx,const REAL*restrict pv,const REAL*restrict ls,const REAL*restrict ps,const REAL*restrict cap,const REAL*restrict ec,const REAL*restrict iec,const REAL*restrict ied,const REAL*restrict pd,const REAL*restrict pc,const REAL*restrict idle,const REAL*restrict s1,const REAL*restrict s2,const REAL*restrict e0,REAL*restrict Te,REAL*restrict Un,REAL*restrict Cu,REAL*restrict E){ \
 enum{B=512}; REAL U[B]; for(int b=0;b<N;b+=B){ int m=N-b<B?N-b:B; for(int j=0;j<m;j++){U[j]=1;Te[b+j]=-1;Un[b+j]=0;Cu[b+j]=0;E[b+j]=e0[b+j];} \
  for(int t=0;t<T;t++){ for(int j=0;j<m;j++){ int i=b+j; REAL e=E[i],up=U[j],te=Te[i],un=Un[i],cu=Cu[i]; STEP(REAL) Te[i]=te;Un[i]=un;Cu[i]=cu;E[i]=e;U[j]=up; } } } }
GEN(d,double)
GEN(s,float)

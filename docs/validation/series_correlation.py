"""The p that allows for serial correlation, worked out with numpy, scipy and public records alone.

python3 docs/validation/series_correlation.py   (numpy 2.4.6, scipy 1.17.1, statsmodels 0.15.0, pandas)

One line a record: n, S, Var S, slope, r, rho, C, plain p, p under correlation; the last figure is the first
autocorrelation of the values themselves by statsmodels. Then the factor of Hamed and Rao (1998) beside ours.
"""
import numpy as np
import statsmodels.api as sm
from scipy import optimize, special, stats


def rule(t,x):
    n=len(x); i,j=np.triu_indices(n,1)
    S=np.sign(x[j]-x[i]).sum()
    _,cnt=np.unique(x,return_counts=True)
    V=(n*(n-1)*(2*n+5)-(cnt*(cnt-1)*(2*cnt+5)).sum())/18
    b=np.median((x[j]-x[i])/(t[j]-t[i]))
    score=lambda v: special.ndtri(stats.rankdata(v)/(n+1))
    y=score(x); z=score(y-np.median((y[j]-y[i])/(t[j]-t[i]))*t); z=z-z.mean()
    g=np.diff(t); gap=np.median(g); d=g/gap
    m=(z[1:]*z[:-1]).sum()/(z*z).sum()
    f=lambda q:(q**d).mean()-m
    r=m if m<=0 else optimize.brentq(f,1e-12,1)
    rho=min(max((n*r+2.5)/(n-4.5),0),.95)
    C=(rho**(abs(t[:,None]-t[None,:])/gap)).sum()/n
    nu=n/(C-1)
    return S,V,b,r,rho,C,2*stats.norm.sf((abs(S)-1)/V**.5),2*stats.t.sf((abs(S)-1)/(V*C)**.5,nu)
for name in ['nile','sunspots']:
    d=getattr(sm.datasets,name).load_pandas().data
    c=d.columns
    t=d[c[0]].values.astype(float); x=d[c[1]].values.astype(float)
    print(name,len(t),*['%.12g'%v for v in rule(t,x)], sm.tsa.acf(x,nlags=1)[1])
# irregular: drop rows of the Nile
d=sm.datasets.nile.load_pandas().data; t=d.year.values.astype(float); x=d.volume.values.astype(float)
k=np.array([i for i in range(100) if (i*7)%10 not in (1,3)])
print('nile thinned',len(k),*['%.12g'%v for v in rule(t[k],x[k])])
# Hamed & Rao
def HR(n,rho):
    k=np.arange(1,n-2); r=6/np.pi*np.arcsin(rho**k/2)
    return 1+2/(n*(n-1)*(n-2))*((n-k)*(n-k-1)*(n-k-2)*r).sum()
def C(n,rho):
    k=np.arange(1,n); return 1+2/n*((n-k)*rho**k).sum()
for n in (50,200,1000):
    for rho in (.3,.6): print(n,rho,HR(n,rho),C(n,rho),C(n,rho)/HR(n,rho))

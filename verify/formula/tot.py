from itertools import combinations
from verify.pencil import digits_of

def sets(formula,cells,weights,total,E):
    if 'n' in E:
        from verify.rules.workings.selection import select_set
        from verify.rules.workings.sums import digit_sets
        select_set(formula,cells,digit_sets(len(cells),total,formula.digits)); return

    n=len(cells); D=formula.digits
    full=[tuple(digits_of(formula.pencil[c])) for c in cells]
    w=weights[0]
    if total%w: formula.some(()); return
    total//=w
    fit=[set(c) for c in combinations(range(1,D+1),n) if sum(c)==total]
    chosen=[(formula.fresh(),s) for s in fit]
    formula.some(l for l,_ in chosen)
    for c in cells:
        for d in digits_of(formula.pencil[c]):
            pl=formula.literal(c,d)
            formula.implies(pl,[l for l,s in chosen if d in s])
            for l,s in chosen:
                if d not in s: formula.not_all(pl,l)
    if "r" not in E:
        for l,s in chosen:
            for d in s:
                formula.implies(l,[formula.literal(c,d) for c in cells])

def leaf(formula,c,w):
    return {w*d: formula.literal(c,d) for d in digits_of(formula.pencil[c])}

def prune(a,b,lo,hi):
    pass

def merge_direct(formula,a,b,targets,apart2):
    """c = a+b with values limited to targets (lo,hi)"""
    lo,hi=targets
    vals={}
    for x in a:
        for y in b:
            if lo<=x+y<=hi and not (apart2 and x==y): vals.setdefault(x+y,formula.fresh())
    for x,lx in a.items():
        for y,ly in b.items():
            if apart2 and x==y: continue
            if x+y in vals: formula.some((-lx,-ly,vals[x+y]))
            else: formula.not_all(lx,ly)
    for z,lz in vals.items():
        for x,lx in a.items():
            if (z-x) in b and not (apart2 and z-x==x): formula.some((-lz,-lx,b[z-x]))
            else: formula.not_all(lz,lx)
        for y,ly in b.items():
            if (z-y) in a and not (apart2 and z-y==y): formula.some((-lz,-ly,a[z-y]))
            else: formula.not_all(lz,ly)
    for v in (vals,):
        formula.some(v.values())
    return vals

def join_direct(formula,a,b,total,apart2):
    for x,lx in a.items():
        if (total-x) in b and not (apart2 and total-x==x): formula.implies(lx,[b[total-x]])
        else: formula.not_all(lx)
    for y,ly in b.items():
        if (total-y) in a and not (apart2 and total-y==y): formula.implies(ly,[a[total-y]])
        else: formula.not_all(ly)

def total(formula,cells,weights,total,E):
    ap=formula.apart(cells)
    if ap and len(set(weights))==1 and 's' in E:
        return sets(formula,cells,weights,total,E)
    if len(cells)==1:
        nodes=leaf(formula,cells[0],weights[0])
        for v,l in nodes.items():
            if v!=total: formula.not_all(l)
        if total not in nodes: formula.some(())
        return
    if 't' in E:
        items=[((c,),(w,)) for c,w in zip(cells,weights)]
        lows=[w*(1 if w>0 else formula.digits) for w in weights]; highs=[w*(formula.digits if w>0 else 1) for w in weights]
        tl,th=sum(lows),sum(highs)
        nodes=[(leaf(formula,c,w),l,h) for c,w,l,h in zip(cells,weights,lows,highs)]
        first=True
        while len(nodes)>2:
            new=[]
            for i in range(0,len(nodes)-1,2):
                if len(nodes)-i//2 <= 0: pass
                (a,al,ah),(b,bl,bh)=nodes[i],nodes[i+1]
                lo,hi=max(al+bl,total-(th-ah-bh)),min(ah+bh,total-(tl-al-bl))
                new.append((merge_direct(formula,a,b,(lo,hi),ap and first and len(set(weights))==1),al+bl,ah+bh))
            if len(nodes)%2: new.append(nodes[-1])
            nodes=new; first=False
        join_direct(formula,nodes[0][0],nodes[1][0],total,ap and len(cells)==2 and len(set(weights))==1)
        return
    if 'o' in E or 'O' in E:
        # order encoding: node = (lo,hi,ge) with ge[v] for lo<v<=hi ; ge(lo)=true ge(hi+1)=false
        T=formula.true
        def lit(n,v):
            lo,hi,ge=n
            if v<=lo: return T
            if v>hi: return -T
            return ge[v]
        def oleaf(c,w):
            ds=sorted(w*d for d in digits_of(formula.pencil[c])); lo,hi=ds[0],ds[-1]
            L={w*d: formula.literal(c,d) for d in digits_of(formula.pencil[c])}
            ge={}
            # value thresholds
            for i,v in enumerate(ds[1:],1):
                g=L[v] if i==len(ds)-1 else (-L[ds[0]] if i==1 else formula.fresh())
                for u in range(ds[i-1]+1,v+1): ge[u]=g
            n=(lo,hi,ge)
            for i,v in enumerate(ds):
                below=lit(n,v); above=lit(n,ds[i+1]) if i+1<len(ds) else -T
                formula.some((-L[v],below)) if -L[v]!=-below else None
                if L[v]!=-above and L[v]!=above: formula.some((-L[v],-above))
                if L[v]!=below and L[v] != -above: formula.some((L[v],-below,above))
                if i+1<len(ds) and below!=T: formula.some((-above,below))
            return n
        nodes=[oleaf(c,w) for c,w in zip(cells,weights)]
        tl=sum(n[0] for n in nodes); th=sum(n[1] for n in nodes)
        def merge(a,b,fix=None):
            lo=a[0]+b[0]; hi=a[1]+b[1]
            if fix is not None: n=(fix,fix,{}) ; 
            else:
                l2=max(lo,total-(th-hi)); h2=min(hi,total-(tl-lo))
                if l2>h2: formula.some(()); return (l2,l2,{})
                ge={v:formula.fresh() for v in range(l2+1,h2+1)}
                n=(l2,h2,ge)
                for v in range(l2+2,h2+1): formula.some((-ge[v],ge[v-1]))
            # a>=i & b>=j -> c>=i+j ; a<=i & b<=j -> c<=i+j
            ai=sorted({a[0]}|set(a[2])); bi=sorted({b[0]}|set(b[2]))
            for i in ai:
                for j in bi:
                    c=lit(n,i+j)
                    if c!=T: formula.some((-lit(a,i),-lit(b,j),c))
            for i in [k-1 for k in ai if k>a[0]]+[a[1]]:
                for j in [k-1 for k in bi if k>b[0]]+[b[1]]:
                    c=lit(n,i+j+1)
                    if c!=-T: formula.some((lit(a,i+1),lit(b,j+1),-c))
            return n
        if 'O' in E:
            n=nodes[0]
            for m in nodes[1:-1]: n=merge(n,m)
            merge(n,nodes[-1],total)
        else:
            while len(nodes)>2:
                new=[merge(nodes[i],nodes[i+1]) for i in range(0,len(nodes)-1,2)]
                if len(nodes)%2: new.append(nodes[-1])
                nodes=new
            merge(nodes[0],nodes[1],total)
        return
    from verify.formula.scan import total_scan
    formula.scan(total_scan(dict(zip(cells, weights, strict=True)), total, formula.pencil))

def order(formula,cell):
    o=formula.__dict__.setdefault('orders',{})
    if cell not in o:
        D=formula.digits; T=formula.true
        if len(list(digits_of(formula.pencil[cell])))==1:
            v=next(digits_of(formula.pencil[cell])); o[cell]=[None]+[T if d<=v else -T for d in range(1,D+1)]+[-T]
            return o[cell]
        x=[None]+[cell*D+d for d in range(1,D+1)]
        ge=[None,T,-x[1]]+[formula.fresh() for _ in range(3,D)]+[x[D],-T]
        for d in range(2,D):
            formula.some((-ge[d+1],ge[d]))
        for d in range(2,D):
            # x_d <-> ge_d & -ge_{d+1}
            formula.some((-x[d],ge[d])); formula.some((-x[d],-ge[d+1])); formula.some((x[d],-ge[d],ge[d+1]))
        o[cell]=ge
    return o[cell]

def native(formula,cells,weights,total):
    D=formula.digits; T=formula.true
    am=formula.__dict__.setdefault('atmosts',[])
    lits=[];k=total
    for c,w in zip(cells,weights):
        assert abs(w)==1
        ge=order(formula,c)
        if w==1: lits+=ge[1:D+1]
        else:
            # -value = -(D) + #(not ge)... value = sum ge ; -value = sum(-ge lits) - D
            lits+=[-g for g in ge[1:D+1]]; k+=D
    k-=sum(l==T for l in lits)
    lits=[l for l in lits if abs(l)!=T]
    if not 0<=k<=len(lits): formula.some(()); return
    if not lits: return
    am.append((lits,k)); am.append(([-l for l in lits],len(lits)-k))

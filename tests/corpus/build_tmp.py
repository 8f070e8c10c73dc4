import json, datetime as dt, collections, re
OFF="+03:00"
A="2026-02-28T06:10"  # Sat
B="2026-03-17T18:35"  # Tue
C="2026-04-22T12:40"  # Wed
D="2026-05-09T20:05"  # Sat
E="2026-06-25T05:25"  # Thu
F="2026-08-19T09:10"  # Wed
G="2026-09-06T16:50"  # Sun
H="2026-10-01T07:30"  # Thu
I="2026-11-23T22:15"  # Mon
J="2026-12-27T01:40"  # Sun, night
K="2026-01-13T14:20"  # Tue
for n,w in zip((A,B,C,D,E,F,G,H,I,J,K),"Sat Tue Wed Sat Thu Wed Sun Thu Mon Sun Tue".split()):
    assert dt.datetime.fromisoformat(n).strftime("%a")==w,(n,w)
herd=json.load(open("herd.json"))["animals"]
ALL=[x["name"] for x in herd]
CALVES=[x["name"] for x in herd if x["status"]=="calf"]
MILKING=[x["name"] for x in herd if x["status"]=="milking"]
def but(*no): return [x for x in ALL if x not in no]
AUTO="auto"; OMIT="omit"
ON="milk service pregnancy_check calving abortion drying_off weaning girth weight condition deworming spraying vaccination disinfection treatment illness feeding milk_sale delivery milk_pay animal_sale expense other_income death new_animal".split()
def T(x): return {"amount":"%.2f"%x,"currency":"TZS"}
def e(kind,**k):
    d={"kind":kind}; d.update(k)
    if kind in ON and "on" not in d: d["on"]=0
    return d
def mk(an,l,s=AUTO,on=0): return e("milk",animal=an,litres=l,session=s,on=on)
def ht(an,t="now",bl=False,**k): return e("heat",animal=an,first_seen=t,bleeding=bl,**k)
def sv(an,m=OMIT,on=0,**k): return e("service",animal=an,method=m,on=on,**k)
def pc(an,r,on=0,**k): return e("pregnancy_check",animal=an,result=r,on=on,**k)
def cv(an,calves=OMIT,on=0,**k):
    if calves!=OMIT:
        out=[]
        for c in calves.split():
            nm=None
            if ":" in c: c,nm=c.split(":")
            x={"sex":{"J":"female","D":"male","U":None}[c[0]],"alive":not c.endswith("X")}
            if nm: x["name"]=nm
            out.append(x)
        calves=out
    return e("calving",animal=an,calves=calves,on=on,**k)
def ill(an,signs,on=0): return e("illness",animal=an,signs=signs.split(),on=on)
def P(code,field=None): return {"code":code,"field":field} if field else {"code":code}
NU=P("not_understood"); WA=P("which_animal"); UA=P("unknown_animal"); CF=P("confirm"); FU=P("in_future")
def day(now,o): return (dt.datetime.fromisoformat(now).date()+dt.timedelta(o)).isoformat()
def wd(now,name):
    for i in range(1,8):
        d=dt.datetime.fromisoformat(now).date()-dt.timedelta(i)
        if d.strftime("%a")==name: return d.isoformat()
def res(d,now):
    o={}
    for k,v in d.items():
        if v==OMIT and k!="kind": continue
        if k=="on":
            v=day(now,v) if isinstance(v,int) else v
        if k=="session" and v==AUTO:
            if d["on"]==0 or d["on"]==day(now,0):
                h=int(now[11:13]); v="morning" if h<11 else "midday" if h<15 else "evening"
            else: v="day"
        if k=="first_seen":
            if v=="now": v=now+OFF
            elif isinstance(v,tuple): v=(day(now,v[0]) if isinstance(v[0],int) else v[0])+"T"+v[1]+OFF
            assert v<=now+OFF,(v,now,d)
        o[k]=v
    if "on" in o and isinstance(o["on"],str): assert o["on"]<=now[:10],(o,now); dt.date.fromisoformat(o["on"])
    return o
cases=[]; cnt=collections.Counter()
def a(L,now,text,entries,prob=None,tags="plain",also=None,grp=None):
    if isinstance(entries,dict): entries=[entries]
    lang="en" if L in("en","mxe") else "sw"
    ents=[res(x,now) for x in entries]
    g=grp or GRP
    cnt[g]+=1
    tg=tags.split()
    assert any(t in("plain","noisy","hard") for t in tg),text
    if L.startswith("mx"): tg.append("mixed-language")
    if prob: tg.append("problem")
    if len(ents)>1: tg.append("multi")
    if any("on" in x and x["on"]!=now[:10] for x in ents): tg.append("backdated")
    c={"id":f"c-{lang}-{g}-{cnt[g]:03d}","now":now+OFF,"language":lang,"text":text,"entries":ents,"problem":prob,"tags":list(dict.fromkeys(tg))}
    if also:
        c["also"]=[{"entries":[res(x,now) for x in (y if isinstance(y,list) else [y])],"problem":p} for y,p in also]
    cases.append(c)

# ---------------------------------------------------------------- milk
GRP="milk"
a("sw",A,"tausi lita 7 asubuhi hii",mk("Tausi",7,"morning"))
a("sw",A,"neema6",mk("Neema",6),tags="noisy nospace")
a("sw",A,"zawadi6.5",mk("Zawadi",6.5),tags="noisy nospace")
a("sw",B,"Pendo 6,5",mk("Pendo",6.5),tags="noisy decimal-comma")
a("sw",B,"Neema 6 5",[mk("Neema",6,"morning"),mk("Neema",5,"evening")],tags="hard two-milkings")
a("en",B,"neema 7+5",[mk("Neema",7,"morning"),mk("Neema",5,"evening")],tags="hard two-milkings",also=[(mk("Neema",12,"day"),None)])
a("sw",D,"tausi asb 6 jn 5",[mk("Tausi",6,"morning"),mk("Tausi",5,"evening")],tags="noisy abbrev two-milkings")
a("sw",I,"zwadi lita 8 asubui lta 6 na nusu jion",[mk("Zawadi",8,"morning"),mk("Zawadi",6.5,"evening")],tags="hard typo two-milkings")
a("sw",D,"Pendo asubuhi lita sita, jioni lita nne na robo tatu. Asante",[mk("Pendo",6,"morning"),mk("Pendo",4.75,"evening")],tags="noisy words polite two-milkings")
a("sw",H,"habari za asubuhi. leo neema katoa lita nane kasoro robo",mk("Neema",7.75,"morning"),tags="hard words polite")
a("sw",H,"nimekamua tausi lita tano na robo",mk("Tausi",5.25),tags="noisy words")
a("sw",C,"A12 mchana lita tatu",mk("A12",3,"midday"),tags="plain tag-name words")
a("sw",C,"mchana huu 0417 amenipa lita 4",mk("0417",4,"midday"),tags="plain tag-name")
a("sw",H,"0417 6",mk("0417",6),tags="hard tag-name bare")
a("sw",H,"a12 12",mk("A12",12),tags="hard tag-name bare")
a("sw",G,"a12 6 0417 8 neema 7",[mk("A12",6),mk("0417",8),mk("Neema",7)],tags="hard tag-name bare")
a("sw",A,"Neema 7 na Zawadi 8 na Tausi 5 na Pendo 6",[mk("Neema",7),mk("Zawadi",8),mk("Tausi",5),mk("Pendo",6)],tags="noisy list")
a("sw",E,"neema na tausi lita 6 kila mmoja",[mk("Neema",6),mk("Tausi",6)],tags="hard each")
a("sw",D,"Neema, Zawadi na Tausi: 6, 7, 8",[mk("Neema",6),mk("Zawadi",7),mk("Tausi",8)],tags="hard list")
a("sw",F,"jana Pendo lita 11",mk("Pendo",11,"day",-1))
a("sw",F,"juzi jioni zawadi alitoa lita 5",mk("Zawadi",5,"evening",-2),tags="noisy")
a("sw",F,"jumatatu asubuhi neema lita 7.5",mk("Neema",7.5,"morning",wd(F,"Mon")),tags="noisy weekday")
a("sw",F,"maziwa ya Tausi jumatano lita 12",mk("Tausi",12,"day",wd(F,"Wed")),tags="hard weekday")
a("sw",F,"tarehe 12 neema lita 13",mk("Neema",13,"day","2026-08-12"),tags="hard date")
a("sw",F,"neema 7 tarehe 18 jioni",mk("Neema",7,"evening","2026-08-18"),tags="hard date")
a("sw",G,"maziwa 3/9 asubuhi pendo 6 zawadi 7",[mk("Pendo",6,"morning","2026-09-03"),mk("Zawadi",7,"morning","2026-09-03")],tags="hard date carry")
a("sw",G,"siku 3 zilizopita 0417 lita 10",mk("0417",10,"day",-3),tags="noisy tag-name")
a("sw",E,"neema saa 11 alfajiri lita 6",mk("Neema",6,"morning"),tags="hard clock")
a("sw",I,"Neema saa 12 asubuhi lita 7 saa 11 jioni lita 5",[mk("Neema",7,"morning"),mk("Neema",5,"evening")],tags="hard clock two-milkings")
a("sw",E,"jana usiku tausi lita 5",mk("Tausi",5,"evening",-1),tags="hard")
a("sw",J,"sijalala bado. jana jioni neema lita 6",mk("Neema",6,"evening",-1),tags="hard night")
a("sw",H,"leo maziwa ya neema kilo 8",mk("Neema",7.77),tags="noisy kg")
a("sw",B,"Jumla ya maziwa ya wote jioni hii ni lita ishirini na tatu",mk("*",23,"evening"),tags="noisy words herd-sum")
a("sw",D,"leo siku nzima zawadi ametoa lita 13",mk("Zawadi",13,"day"),tags="noisy")
a("sw",H,"Pendo leo asubuhi hakutoa kitu, lita 0",mk("Pendo",0,"morning"),tags="hard zero")
a("sw",G,"tausi sifuri leo jioni",mk("Tausi",0,"evening"),tags="hard zero words")
a("sw",A,"MAZWA NEMA LTA 6",mk("Neema",6),tags="hard typo caps")
a("sw",A,"pndo lts 5 tusi lts 4",[mk("Pendo",5),mk("Tausi",4)],tags="hard typo")
a("sw",K,"lita 1O neema leo asb",mk("Neema",10,"morning"),tags="hard typo")
a("sw",K,"nane kwa Zawadi, tano kwa A12, leo mchana",[mk("Zawadi",8,"midday"),mk("A12",5,"midday")],tags="hard words order tag-name")
a("sw",B,"leo mambo ni mazuri sana mama zawadi lita kumi na moja, mungu ni mwema",mk("Zawadi",11),tags="hard words polite")
a("sw",H,"kamua neema6 zawadi8 pendo5.5",[mk("Neema",6),mk("Zawadi",8),mk("Pendo",5.5)],tags="noisy nospace")
a("sw",E,"maziwa ya asb: Neema=5; Tausi=6; Zawadi=7",[mk("Neema",5,"morning"),mk("Tausi",6,"morning"),mk("Zawadi",7,"morning")],tags="noisy")
a("sw",H,"Neema lita mbili nukta tano",mk("Neema",2.5),tags="hard words")
a("sw",H,"lita tatu na nusu ni za pendo na sita ni za neema",[mk("Pendo",3.5),mk("Neema",6)],tags="hard words order")
a("sw",G,"neema 7 kwa bahati mbaya tausi kamwaga ndoo ila nimepata 3",[mk("Neema",7),mk("Tausi",3)],tags="hard name-trap")
a("en",A,"Good morning, Neema gave 7 litres, thanks",mk("Neema",7),tags="plain polite")
a("en",H,"zawadi 8ltrs and tausi 5",[mk("Zawadi",8),mk("Tausi",5)],tags="noisy list")
a("en",D,"Neema 7 morning 5 evening",[mk("Neema",7,"morning"),mk("Neema",5,"evening")],tags="noisy two-milkings")
a("en",D,"pendo am 6.5 pm 4",[mk("Pendo",6.5,"morning"),mk("Pendo",4,"evening")],tags="hard abbrev two-milkings")
a("en",F,"yesterday evening 0417 gave six and a half litres",mk("0417",6.5,"evening",-1),tags="noisy words tag-name")
a("en",F,"milk on sunday morning: neema 6, a12 7",[mk("Neema",6,"morning",wd(F,"Sun")),mk("A12",7,"morning",wd(F,"Sun"))],tags="hard weekday carry tag-name")
a("en",B,"total milk this evening from all cows 24 l",mk("*",24,"evening"),tags="noisy herd-sum")
a("en",C,"PENDO FOUR LITERS AT NOON",mk("Pendo",4,"midday"),tags="noisy caps words")
a("en",H,"all the cows together gave 41 litres this morning",mk("*",41,"morning"),tags="hard herd-sum",also=[([],CF)])
a("en",G,"nema 6 zawdi 7",[mk("Neema",6),mk("Zawadi",7)],tags="noisy typo")
a("en",E,"12th of june tausi gave 9 litres",mk("Tausi",9,"day","2026-06-12"),tags="hard date")
a("mx",H,"neema morning milk lita 7 thanks",mk("Neema",7,"morning"),tags="noisy")
a("mx",D,"tausi 6 litres asubuhi na 5 jioni",[mk("Tausi",6,"morning"),mk("Tausi",5,"evening")],tags="noisy two-milkings")
a("mx",F,"yesterday jioni zawadi alitoa 6lts",mk("Zawadi",6,"evening",-1),tags="noisy")
a("mx",I,"leo evening A12 katoa 7 litres na nusu",mk("A12",7.5,"evening"),tags="hard tag-name")
a("mx",A,"gud moning, neema 6lts na pendo 5lts leo",[mk("Neema",6),mk("Pendo",5)],tags="noisy typo polite")
a("mxe",K,"today mchana Neema gave lita nne",mk("Neema",4,"midday"),tags="noisy words")
a("mx",H,"maziwa yote ya morning jumla 22 litres",mk("*",22,"morning"),tags="noisy herd-sum")

# ---------------------------------------------------------------- heat
GRP="heat"
a("sw",H,"tausi yuko kwenye joto",ht("Tausi"))
a("sw",B,"Zawadi anapanda wenzake tangu saa 9 mchana",ht("Zawadi",(0,"15:00"),signs=["mounting"]),tags="noisy clock")
a("sw",F,"Bahati joto la kupandwa limeanza saa mbili kasoro robo asubuhi",ht("Bahati",(0,"07:45")),tags="hard clock words")
a("sw",F,"jana saa kumi na moja na nusu jioni pendo alikuwa na joto",ht("Pendo",(-1,"17:30")),tags="hard clock words")
a("sw",F,"zawadi joto jana saa 8 usiku",ht("Zawadi",(0,"02:00")),tags="hard clock after-midnight")
a("sw",F,"a12 joto leo saa 8 usiku",ht("A12",(0,"02:00")),tags="hard clock after-midnight tag-name")
a("sw",F,"Neema alionyesha joto jana alfajiri saa 10",ht("Neema",(-1,"04:00")),tags="hard clock alfajiri")
a("sw",E,"tausi ana joto usiku saa 9",ht("Tausi",(0,"03:00")),tags="hard clock after-midnight")
a("sw",J,"0417 joto tangu saa 6 usiku",ht("0417",(0,"00:00")),tags="hard clock tag-name night")
a("sw",J,"neema ana joto jana saa 5 usiku",ht("Neema",(-1,"23:00")),tags="hard clock night")
a("sw",G,"asali joto toka saa 3",ht("Asali",(0,"09:00")),tags="hard clock bare-hour name-trap")
a("sw",A,"pendo joto saa 3",ht("Pendo",(-1,"21:00")),tags="hard clock bare-hour")
a("sw",A,"Zawadi joto saa 2 usiku",ht("Zawadi",(-1,"20:00")),tags="hard clock")
a("sw",F,"jana jioni tausi alianza joto",ht("Tausi",(-1,"18:00")),tags="noisy")
a("sw",F,"Neema kaonekana na joto jana usiku",ht("Neema",(-1,"21:00")),tags="noisy")
a("sw",F,"juzi asubuhi bahati alikuwa kwenye joto",ht("Bahati",(-2,"06:00")),tags="noisy")
a("sw",F,"ijumaa saa 7 mchana Asali joto",ht("Asali",(wd(F,"Fri"),"13:00")),tags="hard clock weekday")
a("sw",E,"neema ana joto asubuhi hii",ht("Neema",(0,"05:25")),tags="hard part-under-way")
a("sw",G,"pendo ana joto jioni hii",ht("Pendo",(0,"16:50")),tags="hard part-under-way")
a("sw",B,"zawadi joto tangu asubuhi, hatulii na analia sana",ht("Zawadi",(0,"06:00"),signs=["restless","bellowing"]),tags="hard signs",also=[(ht("Zawadi",(0,"06:00"),signs=["bellowing","restless"]),None)])
a("sw",H,"tausi anasimama akipandwa na wenzake",ht("Tausi",signs=["standing"]),tags="hard signs")
a("sw",H,"Neema ana joto, ute safi unamtoka na uke umevimba",ht("Neema",signs=["clear_mucus","swollen_vulva"]),tags="hard signs")
a("sw",H,"nemaa jto leo asb saa 1",ht("Neema",(0,"07:00")),tags="hard typo clock")
a("sw",F,"bahati joto 07:30",ht("Bahati",(0,"07:30")),tags="noisy clock")
a("sw",C,"Tausi amerudia joto leo",ht("Tausi"),tags="noisy")
a("sw",G,"Zawadi ametokwa na damu ukeni baada ya joto",ht("Zawadi",OMIT,True),tags="hard bleeding")
a("sw",H,"asali damu kidogo kwenye uke leo",ht("Asali",OMIT,True),tags="hard bleeding name-trap")
a("sw",D,"joto la kupandwa neema, na hataki kula",ht("Neema",signs=["off_feed"]),tags="hard joto")
a("sw",G,"Neema ana joto na anapanda wenzake, maziwa yamepungua pia",ht("Neema",OMIT,signs=["mounting","milk_drop"]),tags="hard joto",also=[(ht("Neema",OMIT,signs=["mounting"]),None)])
a("en",H,"Bahati in heat since 5am",ht("Bahati",(0,"05:00")),tags="plain clock")
a("en",A,"pendo heat last nite",ht("Pendo",(-1,"21:00")),tags="noisy typo")
a("en",A,"tausi on heat 9pm",ht("Tausi",(-1,"21:00")),tags="hard clock")
a("en",B,"saw asali standing to be mounted at 4.30 pm",ht("Asali",(0,"16:30"),signs=["standing"]),tags="hard clock")
a("en",F,"zawadi heat at 5",ht("Zawadi",(0,"05:00")),tags="hard clock bare-hour")
a("en",F,"heat neema yesterday afternoon 3 oclock",ht("Neema",(-1,"15:00")),tags="hard clock")
a("en",D,"Tausi is on heat, bellowing, clear mucus",ht("Tausi",signs=["bellowing","clear_mucus"]),tags="noisy signs")
a("en",G,"A12 was on heat on thursday morning",ht("A12",(wd(G,"Thu"),"06:00")),tags="noisy weekday tag-name")
a("en",G,"Pendo is on heat and not eating well",ht("Pendo",signs=["off_feed"]),tags="hard joto")
a("en",I,"some blood from zawadi's vulva today, heat was 2 days ago",ht("Zawadi",OMIT,True),tags="hard bleeding")
a("mx",B,"neema is on heat tangu saa 4 asubuhi",ht("Neema",(0,"10:00")),tags="noisy clock")
a("mx",D,"Tausi heat ameanza evening hii saa 11",ht("Tausi",(0,"17:00")),tags="hard clock")
a("mx",H,"plz pendo joto since 6 am",ht("Pendo",(0,"06:00")),tags="noisy clock polite")
a("mx",F,"yesterday usiku saa 4 bahati heat",ht("Bahati",(-1,"22:00")),tags="hard clock")
a("mx",G,"zawadi ana heat, mounting wenzake",ht("Zawadi",signs=["mounting"]),tags="noisy")

# ---------------------------------------------------------------- service
GRP="service"
a("sw",H,"Tausi amepandishwa leo kwa mbegu",sv("Tausi","ai"))
a("sw",G,"zawadi kapandwa na Jasiri",sv("Zawadi","bull",sire="Jasiri"),tags="noisy")
a("sw",G,"Jasiri kampanda Tausi jana jioni",sv("Tausi","bull",-1,sire="Jasiri"),tags="hard order")
a("sw",F,"mhimilishaji Salim alimpandisha Neema jana elfu kumi na tano",sv("Neema","ai",-1,technician="Salim",cost=T(15000)),tags="hard money words",also=[(sv("Neema",None,-1,technician="Salim",cost=T(15000)),None)])
a("sw",F,"a12 amefanyiwa AI jumatatu na fundi Hamisi 15k",sv("A12","ai",wd(F,"Mon"),technician="Hamisi",cost=T(15000)),tags="hard money weekday tag-name")
a("sw",H,"pendo mbegu namba KZ417 20,000/=",sv("Pendo","ai",sire="KZ417",cost=T(20000)),tags="hard money")
a("sw",C,"bahati amepandishwa tarehe 12",sv("Bahati",OMIT,"2026-04-12"),tags="noisy date")
a("sw",D,"Asali alipandishwa 3/5",sv("Asali",OMIT,"2026-05-03"),tags="noisy date")
a("sw",C,"Asali alipandishwa 3/5",sv("Asali",OMIT,"2025-05-03"),tags="hard date")
a("sw",H,"neema kapandishwa 12 Machi kwa dume",sv("Neema","bull","2026-03-12"),tags="noisy date")
a("sw",D,"Bahati alipandishwa mwezi wa pili",sv("Bahati",OMIT,"2026-02-15",about=True),tags="hard about month name-trap")
a("sw",D,"Tausi alipandishwa mwezi wa nne na dume la jirani",sv("Tausi","bull","2026-04-15",about=True),tags="hard about month")
a("sw",H,"zawadi kapandishwa siku mbili zilizopita na dume Simba",sv("Zawadi","bull",-2,sire="Simba"),tags="noisy words")
a("sw",I,"sindano ya mbegu amepigwa Neema leo mchana",sv("Neema","ai"),tags="hard sindano")
a("sw",E,"juzi 0417 alipandishwa AI, dume Mlima",sv("0417","ai",-2,sire="Mlima"),tags="noisy tag-name")
a("sw",G,"pendo na tausi wamepandishwa leo na Jasiri",[sv("Pendo","bull",sire="Jasiri"),sv("Tausi","bull",sire="Jasiri")],tags="hard list")
a("sw",H,"NEEMA AMEPANDISHWA",sv("Neema"),tags="plain caps")
a("sw",A,"tusi kapndshwa jna",sv("Tausi",OMIT,-1),tags="hard typo")
a("sw",B,"leo nimemtia mbegu Zawadi, mtaalamu kachukua elfu ishirini na tano",sv("Zawadi","ai",cost=T(25000)),tags="hard money words")
a("sw",A,"alhamisi Pendo kapata AI",sv("Pendo","ai",wd(A,"Thu")),tags="noisy weekday")
a("en",H,"tausi inseminated this morning",sv("Tausi","ai"))
a("en",F,"Pendo was put to the bull on saturday",sv("Pendo","bull",wd(F,"Sat")),tags="noisy weekday")
a("en",G,"AI for A12 by Peter cost 18000",sv("A12","ai",technician="Peter",cost=T(18000)),tags="noisy money tag-name")
a("en",H,"bahati servd by bull Simba 28/9",sv("Bahati","bull","2026-09-28",sire="Simba"),tags="hard typo date")
a("en",C,"Zawadi was served about february",sv("Zawadi",OMIT,"2026-02-15",about=True),tags="hard about month")
a("en",G,"neema ai tday straw HF221",sv("Neema","ai",sire="HF221"),tags="noisy typo")
a("en",F,"served Tausi 3 days ago",sv("Tausi",OMIT,-3),tags="noisy")
a("mx",G,"asali served leo na dume Jasiri",sv("Asali","bull",sire="Jasiri"),tags="noisy")
a("mx",F,"yesterday Neema alifanyiwa artificial insemination na Bw. Mushi",sv("Neema","ai",-1,technician=OMIT),tags="hard")
a("mx",H,"pendo AI done saa 12 asubuhi tech Salim",sv("Pendo","ai",technician="Salim"),tags="hard clock")
a("mx",D,"zawadi amekuwa served na bull ya jirani juzi",sv("Zawadi","bull",-2),tags="noisy")
a("mx",B,"insemination ya bahati leo cost elfu thelathini",sv("Bahati","ai",cost=T(30000)),tags="hard money words")

# ---------------------------------------------------------------- pregnancy check
GRP="preg"
a("sw",C,"Zawadi hana mimba",pc("Zawadi","empty"),tags="hard negation")
a("sw",H,"tausi ana mimba ya miezi 4",pc("Tausi","pregnant",months=4),tags="noisy months")
a("sw",H,"Nyota ana mimba miezi saba",pc("Nyota","pregnant",months=7),tags="noisy months words name-trap")
a("sw",F,"jana daktari amempima Pendo mimba, hana",pc("Pendo","empty",-1),tags="hard negation")
a("sw",G,"mtaalamu kampima neema hana uhakika kama ana mimba",pc("Neema","unsure"),tags="hard")
a("sw",D,"bahati kapimwa mimba jumatano ipo",pc("Bahati","pregnant",wd(D,"Wed")),tags="hard weekday")
a("sw",B,"neema mimba tayari miezi mitatu",pc("Neema","pregnant",months=3),tags="hard months words done-trap")
a("sw",H,"a12 hna mimb",pc("A12","empty"),tags="hard typo tag-name")
a("sw",C,"Asali kipimo cha mimba: ndiyo ana",pc("Asali","pregnant"),tags="hard")
a("sw",F,"Neema ana mimba na Zawadi hana mimba",[pc("Neema","pregnant"),pc("Zawadi","empty")],tags="hard negation list")
a("sw",I,"0417 ameshika mimba kasema daktari",pc("0417","pregnant"),tags="noisy tag-name")
a("en",G,"Tausi is in calf",pc("Tausi","pregnant"))
a("en",C,"vet checked asali, 3 months in calf",pc("Asali","pregnant",months=3),tags="noisy months")
a("en",F,"neema empty",pc("Neema","empty"))
a("en",F,"PD yesterday: A12 positive, 0417 negative",[pc("A12","pregnant",-1),pc("0417","empty",-1)],tags="hard tag-name list")
a("en",H,"pendo checked, vet not sure if she is pregnant",pc("Pendo","unsure"),tags="hard")
a("mx",G,"bahati PD positive miezi miwili",pc("Bahati","pregnant",months=2),tags="hard months words")
a("mx",H,"vet amesema Tausi si pregnant",pc("Tausi","empty"),tags="hard negation")
a("mx",D,"zawadi pregnant, amepimwa leo",pc("Zawadi","pregnant"),tags="noisy")

# ---------------------------------------------------------------- calving
GRP="calving"
a("sw",H,"Nyota amezaa leo alfajiri ndama dume",cv("Nyota","D"),tags="noisy name-trap")
a("sw",G,"tausi kazaa jike bila shida",cv("Tausi","J",ease="easy"),tags="noisy")
a("sw",F,"jana usiku Neema amezaa ndama dume, daktari alimsaidia",cv("Neema","D",-1,ease="helped"),tags="noisy")
a("sw",F,"chausiku amezaa kwa shida sana, ndama amekufa",cv("Chausiku","UX",ease="hard"),tags="hard name-trap")
a("sw",H,"Pendo amezaa mapacha wote majike",cv("Pendo","J J"),tags="hard twins")
a("sw",D,"0417 kazaa ndama jike tumemwita Malaika",cv("0417","J:Malaika"),tags="hard tag-name naming")
a("sw",F,"zawadi amezaa juzi dume",cv("Zawadi","D",-2))
a("sw",E,"shikamoo dokta, neema amejifungua ndama jike usiku huu",cv("Neema","J"),tags="hard polite synonym",also=[(cv("Neema","J",-1),None)])
a("sw",B,"nyota kazaa jumapili",cv("Nyota",OMIT,wd(B,"Sun")),tags="noisy weekday")
a("sw",G,"A12 AMEZAA NDAMA DUME TAREHE 2",cv("A12","D","2026-09-02"),tags="noisy caps date tag-name")
a("sw",F,"chausku",[],UA,tags="hard bare",also=[([],NU),([],P("missing")),([],CF),([],WA),(e("ask",topic="animal",animal="Chausiku"),None)],grp="prob")
a("sw",C,"tausi kaza jke leo",cv("Tausi","J"),tags="hard typo")
a("sw",G,"Bahati amezaa ndama jike",cv("Bahati","J"),tags="noisy heifer name-trap")
a("sw",H,"kwa bahati nzuri Neema kazaa salama jike",cv("Neema","J"),tags="hard name-trap")
a("sw",I,"Chausiku amezaa saa kumi jioni ndama jike, kondo halijatoka",[cv("Chausiku","J"),ill("Chausiku","afterbirth")],tags="hard clock multi-kind")
a("en",H,"Chausiku calved last night, heifer calf",cv("Chausiku","J",-1),tags="noisy",also=[(cv("Chausiku","J",0),None)])
a("en",G,"nyota has calved a bull calf easily",cv("Nyota","D",ease="easy"))
a("en",F,"pendo calvd, calf dead, very hard birth",cv("Pendo","UX",ease="hard"),tags="hard typo")
a("en",D,"Neema gave birth to a heifer named Lulu on thursday",cv("Neema","J:Lulu",wd(D,"Thu")),tags="hard weekday naming")
a("en",F,"A12 calved twin bulls yesterday",cv("A12","D D",-1),tags="hard twins tag-name")
a("mx",H,"chausiku amezaa heifer calf leo saa 10 alfajiri",cv("Chausiku","J"),tags="hard clock")
a("mx",G,"Nyota calved leo dume, vet alisaidia",cv("Nyota","D",ease="helped"),tags="noisy")
a("mx",F,"yesterday tausi kazaa bull calf poa kabisa",cv("Tausi","D",-1,ease=OMIT),tags="noisy")

# ---------------------------------------------------------------- abortion
GRP="abort"
a("sw",H,"Nyota ametupa mimba",e("abortion",animal="Nyota"))
a("sw",F,"kwa bahati mbaya neema ameharibu mimba jana",e("abortion",animal="Neema",on=-1),tags="hard name-trap")
a("sw",B,"mimba ya tausi imetoka leo asubuhi",e("abortion",animal="Tausi"),tags="noisy")
a("sw",G,"pendo katoa mimba ya miezi 5 ijumaa",e("abortion",animal="Pendo",on=wd(G,"Fri")),tags="hard weekday")
a("en",F,"Zawadi miscarried yesterday",e("abortion",animal="Zawadi",on=-1),tags="noisy synonym")
a("en",G,"sad news A12 abortd tdy",e("abortion",animal="A12"),tags="noisy typo tag-name")
a("mx",H,"nyota amefanya abortion juzi",e("abortion",animal="Nyota",on=-2),tags="noisy")

# ---------------------------------------------------------------- drying off, weaning
GRP="dry"
a("sw",G,"Neema amekauka",e("drying_off",animal="Neema"))
a("sw",H,"nimemkausha Pendo leo",e("drying_off",animal="Pendo"))
a("sw",F,"nimeacha kumkamua zawadi tangu jana",e("drying_off",animal="Zawadi",on=-1),tags="noisy synonym")
a("sw",I,"A12 na Tausi wamekaushwa leo",[e("drying_off",animal="A12"),e("drying_off",animal="Tausi")],tags="hard list tag-name")
a("sw",D,"pendo nimemkausha mei mosi",e("drying_off",animal="Pendo",on="2026-05-01"),tags="hard date words")
a("en",H,"stopped milking neema yesterday, she is dry now",e("drying_off",animal="Neema",on=-1),tags="noisy")
a("en",E,"zawadi dried off on 20 june",e("drying_off",animal="Zawadi",on="2026-06-20"),tags="noisy date")
a("mx",F,"tausi tumem dry leo",e("drying_off",animal="Tausi"),tags="hard")
GRP="wean"
a("sw",C,"Kito ameachishwa maziwa leo",e("weaning",animal="Kito"))
a("sw",B,"nimemwachisha Sumu kunyonya jana",e("weaning",animal="Sumu",on=-1),tags="noisy name-trap")
a("sw",C,"Sumu na Kito wote nimewaachisha maziwa tarehe 20",[e("weaning",animal="Sumu",on="2026-04-20"),e("weaning",animal="Kito",on="2026-04-20")],tags="hard list date")
a("en",B,"weaned Sumu today",e("weaning",animal="Sumu"))
a("en",C,"Kito weand on monday",e("weaning",animal="Kito",on=wd(C,"Mon")),tags="noisy typo weekday")
a("mx",C,"kito nime wean leo asubuhi",e("weaning",animal="Kito"),tags="noisy")

# ---------------------------------------------------------------- body
GRP="body"
a("sw",G,"kifua cha Neema sentimita 172",e("girth",animal="Neema",cm=172),tags="noisy")
a("sw",F,"bahati mzunguko wa kifua sm 141 jana",e("girth",animal="Bahati",cm=141,on=-1),tags="noisy name-trap")
a("en",C,"Sumu chest girth 92 cm",e("girth",animal="Sumu",cm=92))
a("mx",G,"tape ya asali leo 150cm",e("girth",animal="Asali",cm=150),tags="hard")
a("sw",C,"Kito ana uzito wa kilo 68",e("weight",animal="Kito",kg=68))
a("sw",G,"uzito tausi kg mia tatu hamsini na tano",e("weight",animal="Tausi",kg=355),tags="hard words")
a("en",G,"weighed pendo, 412 kg",e("weight",animal="Pendo",kg=412))
a("mx",H,"zawadi weight kg 398.5",e("weight",animal="Zawadi",kg=398.5),tags="noisy")
a("sw",H,"hali ya mwili ya Neema ni 3",e("condition",animal="Neema",score=3))
a("en",F,"BCS pendo 2.75",e("condition",animal="Pendo",score=2.75),tags="noisy abbrev")
a("mx",G,"body condition ya A12 mbili na nusu",e("condition",animal="A12",score=2.5),tags="hard words tag-name")
a("sw",B,"sumu kifua 88 na uzito kilo 61",[e("girth",animal="Sumu",cm=88),e("weight",animal="Sumu",kg=61)],tags="hard multi-kind name-trap")

# ---------------------------------------------------------------- deworming
GRP="deworm"
def dw(an,on=0,**k): return e("deworming",animals=an,on=on,**k)
def sp(an,on=0,**k): return e("spraying",animals=an,on=on,**k)
a("sw",H,"leo nimewapa wote dawa ya minyoo",dw(["*"]))
a("sw",F,"Neema na Zawadi nimewanywesha dawa ya minyoo albendazole ml 40 kila mmoja jana",dw(["Neema","Zawadi"],-1,product="albendazole",amount_ml=80),tags="hard each")
a("sw",C,"ndama wamepewa dawa ya minyoo",dw(CALVES),tags="hard group")
a("sw",G,"minyoo wote isipokuwa Nyota",dw(but("Nyota")),tags="hard all-but name-trap")
a("sw",G,"dawa ya minyoo kwa kito ml 10",dw(["Kito"],amount_ml=10),tags="noisy")
a("sw",H,"nimetoa minyoo",dw(["*"]),tags="noisy")
a("sw",E,"tausi kapewa dawa ya minyoo levamisole maziwa yasiuzwe siku tatu nyama siku 14",dw(["Tausi"],product="levamisole",milk_hold_days=3,meat_hold_days=14),tags="hard hold")
a("sw",D,"dwa ya mnyoo wote jmatatu",dw(["*"],wd(D,"Mon")),tags="hard typo weekday")
a("en",H,"gave dewormer to the calves, 10 ml each",dw(CALVES,amount_ml=20),tags="hard group each")
a("en",F,"dewormed all except Pendo",dw(but("Pendo")),tags="hard all-but")
a("en",G,"dewomed asali and bahati 2 days ago with albendazole 50ml",dw(["Asali","Bahati"],-2,product="albendazole",amount_ml=50),tags="noisy typo list")
a("mx",G,"nime deworm ng'ombe wote leo",dw(["*"]),tags="noisy")
a("mx",H,"deworming ya Neema ml 35, no milk hold",dw(["Neema"],amount_ml=35,milk_hold_days=0),tags="hard hold")

# ---------------------------------------------------------------- spraying
GRP="spray"
a("sw",G,"nimenyunyizia dawa ya kupe ng'ombe wote",sp(["*"]))
a("sw",F,"jana tumeogesha ngombe kwenye josho",sp(["*"],-1),tags="noisy")
a("sw",H,"nimeogesha wote kasoro Neema na Nyota",sp(but("Neema","Nyota")),tags="hard all-but")
a("sw",D,"wanaokamuliwa tu nimewanyunyizia dawa ya kupe",sp(MILKING),tags="hard group")
a("sw",C,"kito na sumu wamenyunyiziwa jumapili",sp(["Kito","Sumu"],wd(C,"Sun")),tags="noisy list weekday")
a("sw",E,"nimepulizia ngmbe dawa ya kupe jna",sp(["*"],-1),tags="hard typo")
a("sw",G,"dawa ya kupe amitraz wote leo, maziwa yasitumike masaa 36",sp(["*"],product="amitraz",milk_hold_days=2),tags="hard hold hours")
a("en",G,"dipped all animals this afternoon",sp(["*"]))
a("en",F,"sprayed ticks on saturday",sp(["*"],wd(F,"Sat")),tags="noisy weekday")
a("en",H,"sprayd the calves n Nyota",sp(CALVES+["Nyota"]),tags="hard group typo")
a("en",I,"sprayed all but neema with amitraz",sp(but("Neema"),product="amitraz"),tags="hard all-but")
a("mx",G,"tume spray ngombe wote leo asubuhi",sp(["*"]),tags="noisy")
a("mx",F,"spraying ya jasiri na mwezi jana",sp(["Jasiri","Mwezi"],-1),tags="hard name-trap list")

# ---------------------------------------------------------------- vaccination
GRP="vacc"
def vc(an,d,on=0,**k): return e("vaccination",animals=an,disease=d,on=on,**k)
a("sw",G,"ng'ombe wote wamechanjwa kimeta leo",vc(["*"],"anthrax"))
a("sw",F,"jana chanjo ya ugonjwa wa miguu na midomo kwa wote",vc(["*"],"fmd",-1),tags="noisy")
a("sw",H,"nimechanja ndama ndigana kali",vc(CALVES,"ecf"),tags="hard group")
a("sw",C,"wote wamepata chanjo ya homa ya mapafu",vc(["*"],"cbpp"),tags="hard fever-trap")
a("sw",D,"sindano ya chambavu kwa bahati na asali",vc(["Bahati","Asali"],"blackquarter"),tags="hard sindano list")
a("sw",E,"chanjo kimeta na chambavu wote jumamosi",[vc(["*"],"anthrax",wd(E,"Sat")),vc(["*"],"blackquarter",wd(E,"Sat"))],tags="hard multi weekday")
a("en",G,"vaccinated all against lumpy skin yesterday",vc(["*"],"lsd",-1))
a("en",H,"rabies vaccine Neema and Zawadi",vc(["Neema","Zawadi"],"rabies"),tags="noisy list")
a("mx",F,"vaccination ya FMD wote leo",vc(["*"],"fmd"),tags="noisy")
a("mx",I,"wamechanjwa all cows rift valley fever",vc(["*"],"rvf"),tags="hard fever-trap")

# ---------------------------------------------------------------- disinfection
GRP="disinf"
a("sw",G,"nimepulizia dawa banda la ng'ombe",e("disinfection"),tags="hard spray-trap")
a("sw",F,"banda limesafishwa kwa dawa ya kuua wadudu jana",e("disinfection",on=-1),tags="noisy")
a("sw",H,"nimenyunyizia dawa kwenye zizi asubuhi hii",e("disinfection"),tags="hard spray-trap")
a("sw",B,"jumapili tuliweka dawa ya vijidudu bandani",e("disinfection",on=wd(B,"Sun")),tags="noisy weekday")
a("en",G,"disinfected the cow shed today",e("disinfection"))
a("en",D,"shed disinfectd on wensday",e("disinfection",on=wd(D,"Wed")),tags="noisy typo weekday")
a("mx",F,"banda nime disinfect juzi",e("disinfection",on=-2),tags="noisy")

# ---------------------------------------------------------------- treatment
GRP="treat"
def tr(an,**k): return e("treatment",animals=an,**k)
a("sw",G,"Tausi ametibiwa leo na daktari kwa oxytetracycline, maziwa yasiuzwe siku 7",tr(["Tausi"],product="oxytetracycline",milk_hold_days=7))
a("sw",F,"jana neema alipigwa sindano ya penicillin masaa 72 maziwa yasiuzwe",tr(["Neema"],product="penicillin",milk_hold_days=3,on=-1),tags="hard hold hours sindano")
a("sw",H,"pendo kapewa dawa ya homa ya maziwa",tr(["Pendo"]),tags="hard fever-trap")
a("sw",C,"kito na sumu wamepewa dawa ya kuhara",tr(["Kito","Sumu"]),tags="hard list")
a("sw",I,"Zawadi kapigwa sindano",tr(["Zawadi"],product=None),tags="hard sindano",also=[([],P("missing")),([],CF),([],NU)])
a("sw",D,"a12 dawa ya kiwele, tube penicillin, maziwa siku nne nyama siku kumi",tr(["A12"],milk_hold_days=4,meat_hold_days=10),tags="hard hold words tag-name")
a("sw",B,"dr kaja amempa 0417 antibiotic. Maziwa siku 5",tr(["0417"],milk_hold_days=5),tags="hard hold tag-name")
a("en",G,"vet treated zawadi with oxytetracycline today",tr(["Zawadi"],product="oxytetracycline",milk_hold_days=None))
a("en",F,"gave Pendo penicillin yesterday, milk hold 60 hours, meat 10 days",tr(["Pendo"],product="penicillin",milk_hold_days=3,meat_hold_days=10,on=-1),tags="hard hold hours")
a("en",H,"neema treated for mastitis, label says no milk withdrawal",tr(["Neema"],milk_hold_days=0),tags="hard hold")
a("mx",G,"tausi treated leo na penicillin siku 4 no milk",tr(["Tausi"],product="penicillin",milk_hold_days=4),tags="noisy hold")
a("mx",D,"daktari kamtreat nyota, injection ya calcium",tr(["Nyota"]),tags="hard name-trap")

# ---------------------------------------------------------------- illness
GRP="ill"
a("sw",G,"Tausi anakohoa na anatoa povu mdomoni",ill("Tausi","cough froth"),tags="noisy")
a("sw",H,"neema kiwele kigumu na kimevimba",ill("Neema","udder_hard"),tags="noisy")
a("sw",F,"Zawadi anachechemea tangu jana",ill("Zawadi","lame",OMIT),tags="noisy")
a("sw",C,"pendo tezi zimevimba chini ya sikio na ana homa",ill("Pendo","swollen_nodes fever"),tags="noisy",also=[(ill("Pendo","fever swollen_nodes"),None)])
a("sw",D,"0417 tumbo limejaa gesi",ill("0417","bloat"),tags="noisy tag-name")
a("sw",B,"Nyota anatoka damu ukeni",ill("Nyota","bleeding"),tags="hard bleeding name-trap")
a("sw",G,"Chausiku kazaa juzi na leo damu nyingi inatoka ukeni",[cv("Chausiku",OMIT,-2),ill("Chausiku","bleeding")],tags="hard bleeding")
a("sw",H,"maziwa ya A12 yamepungua sana",ill("A12","milk_drop"),tags="hard tag-name")
a("sw",I,"neema anakojoa mkojo mwekundu",ill("Neema","red_urine"),tags="noisy")
a("sw",F,"asali ana vinundu ngozini na vidonda mdomoni",ill("Asali","skin_lumps mouth_sores"),tags="hard name-trap")
a("sw",J,"haraka tafadhali! Pendo kizazi kimetoka nje baada ya kuzaa",ill("Pendo","prolapse"),tags="hard night",also=[([cv("Pendo"),ill("Pendo","prolapse")],None)])
a("sw",C,"kito anahara damu na ni dhaifu",ill("Kito","diarrhoea weak"),tags="hard",also=[(ill("Kito","diarrhoea weak bleeding"),None),(ill("Kito","diarrhoea bleeding weak"),None)])
a("sw",H,"tausi ana kupe wengi manyoya yamesimama",ill("Tausi","ticks rough_coat"),tags="noisy")
a("sw",E,"zawadi anapumua kwa shida masikio ya baridi",ill("Zawadi","hard_breathing cold_ears"),tags="noisy")
a("sw",G,"jicho la sumu lina ukungu",ill("Sumu","cloudy_eye"),tags="hard name-trap")
a("sw",K,"Neema ana homa ya maziwa",[],P("missing","signs"),tags="hard fever-trap",also=[(ill("Neema","down"),None),([],CF)],grp="ill")
a("en",G,"Tausi has diarrhoea and is weak",ill("Tausi","diarrhoea weak"))
a("en",H,"neema cant stand up since morning",ill("Neema","down"),tags="noisy")
a("en",F,"pendo has clots in milk, udder hard",ill("Pendo","udder_clots udder_hard"),tags="noisy",also=[(ill("Pendo","udder_hard udder_clots"),None)])
a("en",B,"Nyota is bleeding from the vulva",ill("Nyota","bleeding"),tags="hard bleeding")
a("en",D,"the afterbirth of chausiku has not come out",ill("Chausiku","afterbirth"),tags="hard")
a("mx",H,"a12 anacough na ana fever",ill("A12","cough fever"),tags="noisy tag-name")
a("mx",G,"zawadi hataki kula, drooling sana",ill("Zawadi","off_feed drooling"),tags="noisy")
a("mx",C,"bahati ana swollen jaw na kinyesi kigumu",ill("Bahati","swollen_jaw hard_dung"),tags="hard name-trap")

# ---------------------------------------------------------------- feeding
GRP="feed"
def fd(an,f,kg,on=0): return e("feeding",animals=an,feed=f,kg=kg,on=on)
a("sw",G,"nimewapa pumba kilo 6",fd(["*"],"pumba",6))
a("sw",H,"Tausi na Neema nimewapa pumba kilo mbili kila mmoja",fd(["Tausi","Neema"],"pumba",4),tags="hard each words")
a("sw",F,"jana ng'ombe wote walikula hei",fd(["*"],"hei",None,-1),tags="noisy")
a("sw",C,"ndama wamekula majani kilo 5 jumla",fd(CALVES,"majani",5),tags="hard group")
a("en",G,"fed all cows napier 60 kg",fd(["*"],"napier",60))
a("en",H,"zawadi 2.5kg dairy meal this morning",fd(["Zawadi"],"dairy meal",2.5),tags="noisy")
a("mx",F,"A12 dairy meal kilo tatu na nusu leo",fd(["A12"],"dairy meal",3.5),tags="hard words tag-name")

# ---------------------------------------------------------------- milk sale
GRP="msale"
def ms(l,p,am,on=0,**k): return e("milk_sale",litres=l,price=T(p) if p else None,amount=T(am) if am else None,on=on,**k)
a("sw",G,"nimeuza maziwa lita 10 kwa shilingi 12000",ms(10,1200,12000),tags="noisy")
a("sw",F,"jana niliuza lita nane kila lita elfu moja kwa mama Asha",ms(8,1000,8000,-1,buyer="mama Asha"),tags="hard words")
a("sw",H,"nimeuza lita 15 @1100",ms(15,1100,16500),tags="noisy money")
a("sw",D,"uza maziwa 14,000/= bei 1400 kwa lita",ms(10,1400,14000),tags="hard money")
a("sw",B,"jirani kachukua lita mbili na nusu, lita 1200",ms(2.5,1200,3000),tags="hard words",also=[(ms(2.5,1200,3000,buyer="jirani"),None),([],P("not_understood"))])
a("en",G,"sold 12 litres of milk for 14,400",ms(12,1200,14400))
a("en",F,"sold 6.5l at 1000 each yesterday to the hotel",ms(6.5,1000,6500,-1),tags="hard money")
a("mx",H,"nimesell lita 20 at 1250 per litre",ms(20,1250,25000),tags="noisy")

# ---------------------------------------------------------------- delivery
GRP="deliv"
a("sw",H,"nimepeleka lita 18 kituoni asubuhi",e("delivery",litres=18,session="morning"))
a("sw",B,"leo jioni nimepeleka ushirika lita kumi na mbili na nusu",e("delivery",litres=12.5,session="evening"),tags="noisy words")
a("sw",F,"jana kituo kimepokea kilo 24.5 zangu",e("delivery",kg=24.5,session=None,on=-1),tags="hard kg")
a("sw",H,"maziwa lita 10 yamekataliwa kituoni leo asubuhi, yameganda",e("delivery",litres=10,rejected=True,session="morning"),tags="hard rejected")
a("en",H,"delivered 16 litres to the centre",e("delivery",litres=16,session=None))
a("en",G,"the cooperative rejected my 8 kg of milk this evening, sour",e("delivery",kg=8,rejected=True,session="evening"),tags="hard rejected kg")
a("mx",H,"delivery ya morning kituoni lita 19",e("delivery",litres=19,session="morning"),tags="noisy")
GRP="mpay"
a("sw",B,"kituo kimenilipa maziwa ya mwezi wa pili lita 310 shilingi 341,000",e("milk_pay",month="2026-02",litres=310,amount=T(341000)),tags="noisy month")
a("sw",G,"malipo ya maziwa Agosti laki tatu na nusu, makato pumba 40,000 na dawa 12,000",e("milk_pay",month="2026-08",amount=T(350000),deductions=[{"what":"pumba","amount":T(40000)},{"what":"dawa","amount":T(12000)}]),tags="hard money words month")
a("en",H,"cooperative paid for september 280 litres 308000",e("milk_pay",month="2026-09",litres=280,amount=T(308000)),tags="noisy month")
a("mx",D,"payment ya milk ya April kutoka kituo 275k",e("milk_pay",month="2026-04",amount=T(275000)),tags="hard money month")

# ---------------------------------------------------------------- animal sale
GRP="asale"
def asl(an,am=OMIT,on=0,**k): return e("animal_sale",animal=an,amount=T(am) if isinstance(am,(int,float)) else am,on=on,**k)
a("sw",G,"nimemuuza Mwezi laki nane",asl("Mwezi",800000),tags="hard money words name-trap")
a("sw",F,"jana nilimuuza Pendo kwa milioni moja na laki mbili kwa Mzee Ali",asl("Pendo",1200000,-1,buyer="Mzee Ali"),tags="hard money words")
a("sw",H,"Kito ameuzwa 250,000/=",asl("Kito",250000),tags="noisy money")
a("sw",C,"nimeuza asali",asl("Asali",None),tags="hard name-trap",also=[([],CF),([],P("missing","amount"))])
a("sw",D,"Jasiri kauzwa alhamisi 950k",asl("Jasiri",950000,wd(D,"Thu")),tags="noisy money weekday")
a("en",G,"Sold Mwezi to the butcher for 900000",asl("Mwezi",900000))
a("en",F,"0417 was sold yesterday 1.1m",asl("0417",1100000,-1),tags="hard money tag-name")
a("mx",H,"nime sell jasiri tsh 1,000,000",asl("Jasiri",1000000),tags="noisy money")

# ---------------------------------------------------------------- expense, income
GRP="money"
def ex(w,am,on=0): return e("expense",what=w,amount=T(am),on=on)
def oi(w,am,on=0): return e("other_income",what=w,amount=T(am),on=on)
a("sw",G,"nimenunua pumba elfu ishirini na nane",ex("pumba",28000),tags="noisy money words")
a("sw",F,"jana nilinunua dawa ya kupe 8,500/=",ex("dawa ya kupe",8500,-1),tags="noisy money")
a("sw",H,"nimenunua mbegu za mahindi 12000",ex("mbegu za mahindi",12000),tags="hard semen-trap")
a("sw",C,"nimelipa daktari elfu thelathini",ex(OMIT,30000),tags="hard money words")
a("sw",B,"chumvi ya mawe elfu nne na mia tano",ex(OMIT,4500),tags="hard money words",also=[([],P("not_understood"))])
a("sw",D,"nimeuza mbolea shilingi elfu 30",oi("mbolea",30000),tags="noisy money")
a("sw",F,"nimepata laki moja kwa kukodisha dume",oi(OMIT,100000),tags="hard money words")
a("en",G,"bought bran 15k",ex("bran",15000),tags="noisy money")
a("en",F,"paid herdsman 60,000 on sunday",ex(OMIT,60000,wd(F,"Sun")),tags="noisy money weekday")
a("en",H,"sold manure for 20000",oi("manure",20000))
a("mx",G,"nimebuy dairy meal bag mbili 64000",ex(OMIT,64000),tags="hard")
a("mx",F,"transport ya maziwa leo 3k",ex(OMIT,3000),tags="hard money",also=[([],P("not_understood"))])

# ---------------------------------------------------------------- death
GRP="death"
def de(an,on=0,**k): return e("death",animal=an,on=on,**k)
a("sw",G,"Sumu amekufa leo",de("Sumu"),tags="noisy name-trap")
a("sw",F,"jana usiku kito kafa kwa kuhara",de("Kito",-1),tags="noisy")
a("sw",H,"Mwezi amechinjwa",de("Mwezi",reason="slaughtered"),tags="noisy name-trap")
a("sw",D,"tausi ameibiwa usiku wa jana",de("Tausi",-1,reason="stolen"),tags="noisy")
a("sw",E,"asali amepotea tangu jumatatu",de("Asali",wd(E,"Mon"),reason="lost"),tags="hard name-trap weekday")
a("sw",C,"0417 kagongwa na gari amekufa",de("0417",reason="accident"),tags="hard tag-name",also=[(de("0417"),None)])
a("sw",B,"pole yetu, Chausiku amefariki 15/3",de("Chausiku","2026-03-15"),tags="noisy date")
a("en",G,"Pendo died this morning after being sick",de("Pendo",reason="sick"))
a("en",F,"Kito was stolen last night",de("Kito",-1,reason="stolen"))
a("mx",H,"sad news, jasiri died jana kwa accident",de("Jasiri",-1,reason="accident"),tags="noisy")

# ---------------------------------------------------------------- new animal
GRP="new"
def na(n,s,**k): return e("new_animal",name=n,sex=s,**k)
a("sw",G,"nina mtamba mpya anaitwa Johari",na("Johari","female",status="heifer"))
a("sw",F,"jana nimenunua ng'ombe jike anaitwa Maua kwa laki tisa",na("Maua","female",price=T(900000),on=-1),tags="hard money words")
a("sw",H,"sajili dume jipya jina Baraka amezaliwa 10/2/2024",na("Baraka","male",born="2024-02-10",status="bull"),tags="noisy date")
a("sw",C,"ng'ombe mpya Tumaini anakamuliwa, chotara",na("Tumaini","female",status="milking",breed="chotara"),tags="hard")
a("sw",D,"ndama mpya jike anaitwa Lulu mama yake Pendo",na("Lulu","female",status="calf",dam="Pendo"),tags="hard")
a("sw",B,"ongeza ng'ombe jike B07 friesian mwenye mimba",na("B07","female",breed="friesian"),tags="hard tag-name")
a("en",G,"add new bull called Radi",na("Radi","male",status="bull"))
a("en",F,"bought a heifer, name Maua, ayrshire, 850000",na("Maua","female",status="heifer",breed="ayrshire",price=T(850000)),tags="hard money")
a("en",H,"register new dry cow named Bibi",na("Bibi","female",status="dry"),tags="noisy")
a("mx",G,"new cow jina Furaha wa maziwa jersey",na("Furaha","female",breed="jersey"),tags="hard")
a("mx",C,"nimenunua heifer mpya Johari leo 700k",na("Johari","female",status="heifer",price=T(700000)),tags="hard money")

# ---------------------------------------------------------------- naming, contact, setting
GRP="naming"
def nm(an,n): return e("naming",animal=an,name=n)
a("sw",G,"0417 sasa anaitwa Rosi",nm("0417","Rosi"),tags="noisy tag-name")
a("sw",H,"badilisha jina la Kito liwe Shujaa",nm("Kito","Shujaa"))
a("sw",F,"Sumu tumempa jina la Tamu",nm("Sumu","Tamu"),tags="noisy name-trap")
a("en",G,"rename A12 to Malkia",nm("A12","Malkia"),tags="plain tag-name")
a("en",F,"from today Kito is called Duma",nm("Kito","Duma"),tags="noisy")
a("mx",H,"change jina la Bahati kuwa Lulu",nm("Bahati","Lulu"),tags="noisy name-trap")
GRP="contact"
def ct(L,now,text,role,name,ph,tags):
    E1=e("contact",role=role,phone=ph); E2=e("contact",role=role,phone="+255"+ph[1:])
    if name!=OMIT: E1["name"]=name; E2["name"]=name
    a(L,now,text,E1,tags=tags,also=[(E2,None)])
ct("sw",G,"daktari wangu ni Mosha namba 0600000123","vet","Mosha","0600000123","plain phone")
ct("sw",H,"mhimilishaji Salim 0600 000 417","technician","Salim","0600000417","hard phone tag-trap")
ct("sw",F,"hifadhi namba ya daktari wa mifugo 0600000555",'vet',OMIT,"0600000555","noisy phone")
ct("sw",C,"namba mpya ya fundi wa AI Hamisi ni 0600000888","technician","Hamisi","0600000888","hard phone service-trap")
ct("en",G,"my vet is Grace 0600000222","vet","Grace","0600000222","plain phone")
ct("en",F,"AI man Peter phone 0600 000 333","technician","Peter","0600000333","hard phone service-trap")
ct("mx",H,"vet namba yake 0600000777 anaitwa Neni","vet","Neni","0600000777","hard phone")
GRP="setting"
def st(t,n): return e("setting",task=t,every_days=n)
a("sw",G,"nikumbushe kunyunyizia kila siku 10",st("spray",10))
a("sw",H,"dawa ya minyoo kila baada ya siku 60",st("deworm",60),tags="noisy")
a("sw",F,"kuosha banda kwa dawa kila wiki mbili",st("disinfect",14),tags="hard words")
a("sw",C,"ogesha kila wiki",st("spray",7),tags="hard")
a("sw",D,"nitumie ukumbusho saa 2 asubuhi",e("setting"),tags="hard clock hour")
a("en",G,"spray every 21 days",st("spray",21))
a("en",H,"set deworming every 90",st("deworm",90),tags="noisy")
a("en",F,"send my reminders at 7 pm",e("setting"),tags="hard hour")
a("mx",G,"disinfect kila siku 5",st("disinfect",5),tags="noisy")

# ---------------------------------------------------------------- instructions
GRP="done"
def dn(*n): return e("done",numbers=list(n))
a("sw",H,"tayari 1 3",dn(1,3))
a("sw",H,"nimemaliza namba 2",dn(2))
a("sw",F,"ya kwanza na ya tatu tayari",dn(1,3),tags="hard words")
a("sw",G,"tyri 1,2 na 4",dn(1,2,4),tags="hard typo")
a("sw",G,"nimeshafanya kazi namba mbili",dn(2),tags="noisy words")
a("en",H,"done 2 and 3",dn(2,3))
a("en",F,"DONE1",dn(1),tags="noisy nospace")
a("en",H,"weighing of Kito is done",e("done",task="weigh",animals=["Kito"]),tags="hard",also=[([],P("missing","kg"))])
a("mx",G,"number 1 tayari",dn(1),tags="noisy")
GRP="later"
def lt(*n): return e("later",numbers=list(n))
a("sw",H,"baadaye 2",lt(2))
a("sw",F,"ahirisha namba 1 na 3",lt(1,3),tags="noisy")
a("sw",G,"badae 1",lt(1),tags="noisy typo")
a("en",H,"later 3",lt(3))
a("mx",F,"namba 2 later tafadhali",lt(2),tags="noisy polite")
GRP="noans"
na_=e("no_answer")
a("sw",H,"daktari hapokei simu",na_)
a("sw",J,"nimepiga hapokei",na_,tags="noisy night")
a("sw",G,"simu yake haipatikani",na_,tags="hard")
a("en",H,"no answer",na_)
a("en",D,"vet not picking up the phone",na_,tags="noisy")
a("mx",F,"nimecall vet no answer",na_,tags="noisy")
GRP="undo"
un=e("undo")
a("sw",H,"futa",un)
a("sw",F,"samahani nimekosea, futa hiyo",un,tags="noisy polite")
a("sw",G,"FUTA YA MWISHO",un,tags="noisy caps")
a("en",H,"cancel my last message",un)
a("en",F,"wrong, delete that pls",un,tags="noisy")
a("mx",G,"undo ya mwisho",un,tags="noisy")
GRP="lang"
def lg(t): return e("language",to=t)
a("sw",H,"nataka kiswahili",lg("sw"))
a("sw",F,"naomba ujumbe kwa kingereza",lg("en"),tags="noisy")
a("en",H,"english please",lg("en"))
a("en",G,"send me messages in swahili",lg("sw"),tags="noisy")
a("mx",F,"language iwe kiswahili",lg("sw"),tags="noisy")
GRP="stop"
so=e("stop"); sr=e("start")
a("sw",H,"sitaki tena ujumbe wenu",so,tags="noisy")
a("sw",G,"acha",so,tags="noisy bare")
a("en",H,"STOP",so,tags="plain caps")
a("en",F,"please stop sending me messages",so,tags="noisy polite")
a("mx",G,"stop kunitumia sms",so,tags="noisy")
GRP="start"
a("sw",H,"anza",sr)
a("en",G,"start again",sr)
a("mx",F,"nataka ku start tena huduma",sr,tags="noisy")

# ---------------------------------------------------------------- ask
GRP="ask"
def ak(t,**k): return e("ask",topic=t,**k)
a("sw",H,"msaada",ak("help"))
a("sw",G,"naandikaje maziwa?",ak("help"),tags="hard")
a("sw",F,"nionyeshe orodha ya ng'ombe wangu",ak("herd"))
a("sw",H,"kazi za leo ni zipi",ak("tasks",period="today"))
a("sw",B,"ratiba ya wiki hii",ak("tasks",period="week"),tags="noisy")
a("sw",C,"nifanye nini mwezi huu?",ak("tasks",period="month"),tags="hard name-trap")
a("sw",G,"Neema atazaa lini?",ak("animal",animal="Neema"),tags="hard question")
a("sw",H,"Tausi ana mimba?",ak("animal",animal="Tausi"),tags="hard question")
a("sw",F,"je zawadi alipandishwa lini",ak("animal",animal="Zawadi"),tags="hard question")
a("sw",G,"hesabu ya Julai",ak("statement",month="2026-07"))
a("sw",H,"HESABU",ak("statement"),tags="plain caps")
a("sw",B,"neema ametoa maziwa kiasi gani wiki iliyopita?",ak("milk",animal="Neema"),tags="noisy question")
a("sw",F,"maziwa ya mwezi huu jumla ngapi",ak("milk"),tags="hard question name-trap")
a("sw",G,"nionyeshe nilichoandika leo",ak("entries"),tags="noisy")
a("sw",H,"bei ya maziwa ikoje sasa?",ak("price"),tags="noisy question")
a("sw",J,"nimpigie nani usiku huu?",ak("call"),tags="noisy night question")
a("sw",G,"dawa ya minyoo nimpe Zawadi kiasi gani?",ak("dose"),tags="hard question")
a("sw",F,"nachanganyaje dawa ya kupe na maji?",ak("mix"),tags="hard question")
a("sw",I,"kwa nini pendo maziwa yamepungua?",ak("animal",animal="Pendo"),tags="hard question",also=[(ill("Pendo","milk_drop"),None),(ak("milk",animal="Pendo"),None)])
a("en",H,"help",ak("help"))
a("en",G,"list my animals",ak("herd"))
a("en",F,"what do I have to do this week?",ak("tasks",period="week"),tags="noisy question")
a("en",H,"When is Nyota due to calve?",ak("animal",animal="Nyota"),tags="hard question")
a("en",C,"statement for march",ak("statement",month="2026-03"))
a("en",G,"what did i record yesterday",ak("entries"),tags="noisy question")
a("en",F,"price of milk?",ak("price"),tags="noisy question")
a("en",D,"who should i call for a sick cow",ak("call"),tags="hard question")
a("en",G,"how much dewormer for Bahati?",ak("dose"),tags="hard question")
a("en",H,"how do i mix spray for 16 litres of water",ak("mix"),tags="hard question")
a("mx",H,"tasks za leo",ak("tasks",period="today"),tags="noisy")
a("mx",G,"neema milk yake wiki hii ngapi?",ak("milk",animal="Neema"),tags="noisy question")
a("mx",F,"statement ya June",ak("statement",month="2026-06"),tags="noisy")
a("mx",I,"is Pendo ana mimba kweli?",ak("animal",animal="Pendo"),tags="hard question")

# ---------------------------------------------------------------- several kinds in one text
GRP="multi"
a("sw",H,"Neema 6, Zawadi amepandishwa AI, Tausi hataki kula",[mk("Neema",6),sv("Zawadi","ai"),ill("Tausi","off_feed")],tags="hard multi-kind")
a("sw",B,"habari. jana nimenyunyizia wote. leo pendo lita 5 jioni, a12 ana joto tangu saa 8 mchana",[sp(["*"],-1),mk("Pendo",5,"evening"),ht("A12",(0,"14:00"))],tags="hard multi-kind polite carry tag-name")
a("sw",F,"neema katoa 7 nimeuza lita 5 kwa 6000",[mk("Neema",7),ms(5,1200,6000)],tags="hard multi-kind")
a("sw",G,"tausi amezaa jike na zawadi amekauka",[cv("Tausi","J"),e("drying_off",animal="Zawadi")],tags="hard multi-kind")
a("sw",H,"pendo ana mimba miezi 7, nimemkausha leo",[pc("Pendo","pregnant",months=7),e("drying_off",animal="Pendo")],tags="hard multi-kind months")
a("sw",C,"nimenunua dawa ya minyoo 9000 na kuwapa ndama",[ex("dawa ya minyoo",9000),dw(CALVES)],tags="hard multi-kind group")
a("en",H,"neema 7 tausi 6, zawadi on heat since 6am",[mk("Neema",7),mk("Tausi",6),ht("Zawadi",(0,"06:00"))],tags="hard multi-kind")
a("en",F,"dewormed and sprayed all yesterday, neema 6 today",[dw(["*"],-1),sp(["*"],-1),mk("Neema",6)],tags="hard multi-kind")
a("mx",D,"leo evening neema 5, zawadi 6, chausiku calved dume",[mk("Neema",5,"evening"),mk("Zawadi",6,"evening"),cv("Chausiku","D")],tags="hard multi-kind")
a("mx",G,"pendo treated na penicillin siku 4, tausi 6 litres",[tr(["Pendo"],product="penicillin",milk_hold_days=4),mk("Tausi",6)],tags="hard multi-kind hold")

# ---------------------------------------------------------------- problems
GRP="prob"
# not understood
for L,n,t,tg in [("sw",G,"asante sana","plain polite"),("sw",H,"sawa","plain"),("sw",F,"mungu akubariki, usiku mwema","noisy polite"),
 ("sw",B,"ada ya shule inanisumbua sana mwezi huu","hard chatter name-trap"),("sw",C,"mto umekauka huku kijijini","hard chatter dry-trap"),
 ("sw",D,"leo timu yetu imefunga mabao 3 kwa 1","hard chatter numbers"),("sw",E,"mwezi huu mvua ni kidogo na jua ni kali","hard chatter name-trap"),
 ("sw",G,"Neema hajapandishwa","hard denial"),("sw",F,"tausi hajazaa bado","hard denial"),("sw",H,"Zawadi hana joto leo","hard denial"),
 ("sw",I,"sijanyunyizia dawa bado","hard denial"),("sw",A,"neema hajapimwa mimba","hard denial"),("sw",K,"xkw rtt pplo","noisy"),
 ("sw",D,"umeme umekatika tangu saa 2 usiku","hard chatter clock"),
 ("en",G,"thank you very much","plain polite"),("en",H,"ok","plain"),("en",F,"it rained the whole night here","noisy chatter"),
 ("en",C,"Pendo was not served","hard denial"),("en",D,"we have not sprayed the cows","hard denial"),("en",B,"school opens on monday, children need 2 uniforms","hard chatter numbers"),
 ("mx",G,"poa boss thanks","plain polite"),("mx",F,"match ya jana ilikuwa fire, 2-0","hard chatter numbers"),("mx",H,"neema not served bado","hard denial")]:
    a(L,n,t,[],NU,tags=tg)
a("sw",H,"maziwa ya tausi yameongezeka sana",[],P("missing","litres"),tags="hard milk-trap",also=[([],NU)])
a("sw",G,"nimelipa ada ya shule 50,000",[],NU,tags="hard chatter money",also=[(ex(OMIT,50000),None)])
# which animal
for L,n,t,tg in [("sw",H,"lita 6 asubuhi","plain"),("sw",G,"amezaa ndama jike","plain"),("sw",F,"yuko kwenye joto tangu jana","noisy"),
 ("sw",B,"amepandishwa leo AI","noisy"),("sw",C,"ndama mmoja anahara","hard"),("sw",D,"nimeuza ng'ombe mmoja laki saba","hard money words"),
 ("sw",I,"ng'ombe wangu kafa","noisy"),("sw",E,"hana mimba","noisy"),("sw",A,"kifua sm 150","noisy"),
 ("en",H,"she calved last night","plain"),("en",G,"one of my cows is coughing","noisy"),("en",F,"girth 155 cm","plain"),("en",D,"the calf died","hard"),
 ("mx",G,"amekuwa served leo na bull","noisy")]:
    a(L,n,t,[],WA,tags=tg)
# unknown animal
a("sw",H,"Malkia lita 6",[],UA,tags="plain unknown")
a("sw",G,"Rozalia amezaa dume",[],UA,tags="plain unknown")
a("sw",F,"C33 yuko kwenye joto",[],UA,tags="hard unknown tag-name")
a("sw",B,"neema 6 tausi 5 Johari 7",[mk("Neema",6),mk("Tausi",5)],UA,tags="hard unknown")
a("en",H,"Daisy was served by AI today",[],UA,tags="plain unknown")
a("en",G,"0988 gave 5 litres",[],UA,tags="hard unknown tag-name")
a("mx",F,"Furaha heat tangu asubuhi",[],UA,tags="noisy unknown")
# missing
def mi(L,n,t,f,tg,also=None,ents=()): a(L,n,t,list(ents),P("missing",f),tags=tg+" missing",also=also)
mi("sw",H,"nimekamua Neema asubuhi","litres","plain")
mi("sw",G,"zawadi kapimwa mimba leo","result","plain")
mi("sw",F,"nimempima Asali uzito leo","kg","noisy name-trap")
mi("sw",C,"nimenunua pumba leo","amount","noisy")
mi("sw",B,"nimeuza maziwa leo",None,"plain")
mi("sw",D,"nimepeleka maziwa kituoni asubuhi",None,"noisy")
mi("sw",H,"nina ng'ombe mpya anaitwa Maua","sex","hard")
mi("sw",G,"nimepata mtamba mpya","name","noisy")
mi("sw",I,"Neema anaumwa","signs","plain")
mi("sw",F,"wote wamechanjwa jana","disease","noisy")
mi("sw",E,"zawadi lita tano, tausi nimemkamua pia","litres","hard",ents=[mk("Zawadi",5)],also=[([mk("Zawadi",5)],NU),([mk("Zawadi",5)],None)])
mi("en",G,"pregnancy test for Pendo done today","result","hard done-trap",also=[(e("done",task="pregnancy_check",animals=["Pendo"]),None)])
mi("en",H,"A12 is very sick","signs","plain tag-name")
mi("en",C,"measured girth of Kito","cm","noisy")
mi("en",F,"body condition score Tausi","score","noisy")
mi("en",D,"i bought hay yesterday","amount","noisy")
mi("mx",H,"vaccine ya ndama wote leo","disease","noisy group")
mi("mx",G,"new cow anaitwa Maua","sex","hard",also=[(na("Maua","female"),None)])
# out of range
def oor(L,n,t,f,tg,ents=(),also=None): a(L,n,t,list(ents),P("out_of_range",f),tags=tg+" range",also=also)
oor("sw",H,"Neema lita 65","litres","plain")
oor("sw",G,"kifua cha tausi sm 20","cm","plain")
oor("sw",F,"pendo uzito kilo 2500","kg","plain")
oor("sw",C,"neema kapandishwa 31/2","on","hard date")
oor("sw",D,"zawadi hali ya mwili 7","score","noisy")
oor("sw",B,"kito uzito kilo 6","kg","noisy")
oor("sw",A,"neema 7 zawadi 80","litres","hard",ents=[mk("Neema",7)])
oor("sw",I,"Tausi amezaa tarehe 35","on","hard date")
oor("sw",E,"badilisha jina la kito liwe Shujaamkubwawakijiji","name","hard")
oor("en",H,"girth of asali 305 cm","cm","plain")
oor("en",G,"tausi gave 120 litres","litres","noisy")
oor("en",F,"BCS neema 0","score","noisy")
oor("mx",G,"weight ya bahati 9000kg","kg","noisy name-trap")
oor("mxe",H,"pendo served on 30 Februari","on","hard date")
# in future
for L,n,t,tg in [("sw",H,"Neema amepandishwa kesho","noisy"),("sw",G,"tausi alizaa 12/12/2026","noisy date"),("sw",F,"kesho kutwa nimenyunyizia wote","hard"),
 ("sw",G,"zawadi joto leo saa 3 usiku","hard clock"),("sw",E,"wiki ijayo nitamkausha pendo","hard"),
 ("en",H,"neema served tomorrow","plain"),("en",C,"Zawadi calved on 5 May 2026","noisy date"),("en",B,"pendo died 20/3/2027","hard date"),
 ("mx",F,"tausi AI kesho morning","noisy")]:
    a(L,n,t,[],FU,tags=tg+" future")
# confirm
def cf(L,n,t,tg,ents=(),also=None): a(L,n,t,list(ents),CF,tags=tg+" confirm",also=also)
cf("sw",H,"Jasiri lita 6","plain male")
cf("sw",G,"Kito yuko kwenye joto","plain male calf")
cf("sw",F,"sumu amepandishwa","noisy calf name-trap")
cf("sw",C,"Mwezi ana mimba","noisy male name-trap")
cf("sw",B,"kito amezaa ndama jike","noisy male calf")
cf("sw",H,"Chausiku lita 4 asubuhi","plain dry-cow")
cf("sw",G,"bahati lita 3","noisy heifer name-trap")
cf("sw",D,"neema 6 zawadi 7 chausiku 5","hard dry-cow",ents=[mk("Neema",6),mk("Zawadi",7)])
cf("sw",H,"Nyota amepandishwa leo","hard in-calf name-trap")
cf("sw",I,"nyota yuko kwenye joto","hard in-calf name-trap")
cf("sw",A,"tausi lita 31","plain quantity")
cf("sw",E,"neema 6, neema 6 asubuhi","hard twice",also=[([mk("Neema",6,"morning")],CF)])
cf("sw",B,"asubuhi zawadi lita 6, asubuhi zawadi lita 9","hard contradiction",also=[([mk("Zawadi",6,"morning")],CF)])
cf("sw",G,"tausi ana mimba, tausi hana mimba","hard contradiction negation")
cf("sw",H,"Neema ana joto na anakohoa","hard joto")
cf("sw",F,"pendo ana joto hataki kula tezi zimevimba","hard joto")
cf("sw",C,"zawadi joto digrii 40.5","hard joto degrees")
cf("sw",D,"a12 joto na puani anatoa povu","hard joto tag-name")
cf("sw",G,"Zawdi amekufa","hard near-name typo")
cf("sw",F,"nimeuza tausii laki tisa","hard near-name typo money")
cf("sw",H,"chauskiu amezaa dume","hard near-name typo")
cf("sw",B,"nemma kapigwa sindano ya penicillin siku 4","hard near-name typo sindano")
cf("en",H,"Mwezi gave 5 litres","plain male")
cf("en",G,"nyota on heat since morning","noisy in-calf")
cf("en",F,"A12 31 litres this morning","noisy quantity tag-name")
cf("en",D,"Nyota was served by the bull today","noisy in-calf")
cf("en",C,"Penddo died yesterday","hard near-name typo")
cf("en",B,"treated zawdai with penicillin","hard near-name typo")
cf("en",G,"nyoota calved a heifer","hard near-name typo")
cf("mx",H,"asali milk lita 2","noisy heifer name-trap")
cf("mx",G,"neema joto 41 degrees","hard joto degrees")
cf("mx",F,"tausi joto, coughing sana","hard joto")
cf("mx",I,"kito served leo","noisy male calf")
exec(open("extra_tmp.py").read()) if __import__("os").path.exists("extra_tmp.py") else None

# ---------------------------------------------------------------- checks and output
seen=set(); txt=set()
S=[json.loads(l) for l in open("samples.jsonl")]
st_={re.sub(r"\W+"," ",x["text"].lower()).strip() for x in S}
for c in cases:
    assert c["id"] not in seen; seen.add(c["id"])
    k=(c["now"],c["text"].lower()); assert k not in txt,k; txt.add(k)
    if re.sub(r"\W+"," ",c["text"].lower()).strip() in st_: print("SAMPLE TEXT",c["text"])
    for x in c["entries"]:
        for nme in [x.get("animal")]+(x.get("animals") or []):
            assert nme in ALL+["*",None],(nme,c)
    assert all(ord(z)<128 for z in c["text"]),c["text"]
with open("messages.jsonl","w") as f:
    for c in cases: f.write(json.dumps(c,ensure_ascii=False)+"\n")
kc=collections.Counter(x["kind"] for c in cases for x in c["entries"])
pcn=collections.Counter(c["problem"]["code"] for c in cases if c["problem"])
mx=sum("mixed-language" in c["tags"] for c in cases)
en=sum(c["language"]=="en" and "mixed-language" not in c["tags"] for c in cases)
n=len(cases)
print(n,"mixed",mx,round(mx/n,2),"en",en,round(en/n,2),"sw",n-mx-en,round((n-mx-en)/n,2))
print(kc); print(pcn); print(collections.Counter(t for c in cases for t in c["tags"] if t in("plain","noisy","hard")))
print("topics",collections.Counter(x["topic"] for c in cases for x in c["entries"] if x["kind"]=="ask"))
core="milk heat service pregnancy_check calving abortion drying_off weaning deworming spraying disinfection death animal_sale new_animal naming contact setting undo done later no_answer ask language stop start".split()
cc=sum(bool(c["entries"]) and any(x["kind"] in core for x in c["entries"]) for c in cases); pr=sum(not c["entries"] for c in cases)
print("core cases with entries",cc,"empty(problem) cases",pr, "non-core",n-cc-pr)
print("also",sum("also" in c for c in cases))
print(cnt)

"""What the job documents in tokens have in common, so that it need not stand in each of them.

Deflate looks back into this text as if it came before the payload. It is written in the public names of the job
document and in the units that people and the page write. It is part of the form of the token: a token made with one
text cannot be read with another, so it changes only together with the salt in ``token``, and a test holds a token that
must open for as long as the salt stands.
"""

from __future__ import annotations

# the rarest first: what is near the end is the cheapest to refer to
_TEXT = (
    '"both-sides""contraction""isolation""bond-line""laitance""glue""fixture""existing-coating""conversio'
    'n""0.5 m""degC""m2/h""25 kg""MPa""g/m2/24h""5 L""1 1/2 in""UTC""America/New_York""America/Denver""Am'
    'erica/Los_Angeles""Europe/Berlin"{"at":["3 m","0 m"],"circle":{"diameter":"17 ft"}}'
    '{"polygon":{"points":[[0,0],[24,0],[24,10],[14,10],[14,18],[0,18]],"unit":"ft"}}'
    '{"polygon":{"points":[["0 m","0 m"],["6 m","0 m"]]}}{"readings":[{"at":"2027-01-11T00:00-06:00",'
    '"temperature":"47 degF"},{"at":"2027-01-11T03:00-06:00","temperature":"44 degF"},'
    '{"at":"2027-01-11T06:00-06:00","temperature":"45 degF"},{"at":"2027-01-11T09:00-06:00",'
    '"temperature":"53 degF"},{"at":"2027-01-11T12:00-06:00","temperature":"57 degF"},'
    '{"at":"2027-01-11T15:00-06:00","temperature":"54 degF"},{"at":"2027-01-11T18:00-06:00",'
    '"temperature":"50 degF"},{"at":"2027-01-11T21:00-06:00","temperature":"48 degF"}]}'
    '{"daily":{"coldest_at":"05:00","high":"70 degF","low":"50 degF"}}{"offers":[{"available":40,'
    '"price":"139.60","sku":"CC-1.5"}],"on_hand":[{"packs":1,"sku":"LB-1"}]}{"closed":["2027-03-08"],'
    '"round_the_clock":true,"shifts":[{"days":["mon","tue","wed","thu","fri","sat","sun"],"from":"06:00",'
    '"to":"15:30"},{"days":["sun"],"from":"20:00","to":"24:00"}]}{"crew":{"clearing_rate":"2500 ft2/h",'
    '"coating_rate":"1500 ft2/h","lane_depth":"3 ft","lane_width":"12 ft","placing_rate":"900 ft2/h"}}'
    '{"cutouts":[{"at":["10 ft","8 ft"],"rectangle":{"length":"6 ft","width":"4 ft"}},'
    '{"measured":{"area":"20 ft2","perimeter":"18 ft"}}]}{"cracks":[{"depth":"1/2 in","length":"17 ft",'
    '"width":"3/8 in"}],"spalls":[{"area":"3 ft2","depth":"3/8 in"}],"terminations":[{"length":"8 ft"}]}'
    '{"absorbs_water":true,"age":"45 d","compressive_strength":"4200 psi","contaminants":[],"damp":false,'
    '"dries_from":"one-side","moisture_emission":["6.1 lb/1000ft2/24h",{"area":"64.06 in2",'
    '"gain":"3.0 g","hours":72},"5.4 lb/1000ft2/24h"],"ph":9.5,"poured":"2027-01-19","profile_csp":4,'
    '"pull_off":["310 psi",{"failure":"concrete","strength":"295 psi"}],'
    '"relative_humidity":[{"depth":"2 in","percent":84},{"depth":"2 in","percent":81}],'
    '"substrate":"concrete","temperature":"61 degF","thickness":"5 in"}{"engine":"0.1.0",'
    '"job":{"air":{"humidity_percent":55,"temperature":"64 degF"},"order":{"colour":"slate",'
    '"confidence":0.9,"delivery":"45.00","discount_percent":0,"issued":"2027-03-01",'
    '"optional_layers":["primer"],"price_book":"list","reference":"PO 4711","tax_percent":8.25,'
    '"waste_percent":5},"rooms":[{"cove":{"height":"4 in","length":"120 ft"},"drains":[{"count":2,'
    '"round":{"diameter":"8 in"}},{"trench":{"length":"20 ft","width":"6 in"}}],'
    '"joints":[{"depth":"1/2 in","kind":"moving","length":"28 ft","line":[["14 ft","0 ft"],["14 ft",'
    '"10 ft"]],"width":"3/8 in"}],"name":"Room","profile_csp":5,"shape":{"rectangle":{"length":"42 ft",'
    '"width":"28\' 6\\""}},"slope_percent":1.0,"thickness":"5/16 in"}],"slab":{"age":"45 d",'
    '"profile_csp":4,"temperature":"61 degF"},"system":"level-clear","thickness":"1/4 in",'
    '"work":{"crew":{"minutes_per_mix":4,"mixing_stations":2},"material_temperature":"70 degF",'
    '"preparation":"6 h","reopen_by":"2027-03-12T05:00","start":"2027-03-05T06:00",'
    '"temperatures":{"steady":"64 degF"},"traffic":"vehicle","zone":"America/Chicago"}},"revision":""}",'
    '"units":"si"}{"book":"","engine":"0.1.0","job":{"rooms":[{"name":"Floor",'
    '"shape":{"rectangle":{"length":" ft","width":" ft"}}},{"name":"Store",'
    '"shape":{"measured":{"area":"1200 sq ft","perimeter":"128 ft"}}}],"system":"level-clear"},'
    '"revision":"","units":"us"}'
)
DICTIONARY = _TEXT.encode()

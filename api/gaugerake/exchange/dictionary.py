"""What the jobs in tokens have in common, so that it need not stand in each of them.

Deflate looks back into this text as if it came before the payload. It is part of the form of the token: a token made
with one text cannot be read with another, so it changes only together with the salt in ``token``.
"""

from __future__ import annotations

# the rarest first: what is near the end is the cheapest to refer to
_TEXT = (
    '"not-graded":"existing-coating","bond-line","laitance","glue","fixture":"both-sides","contraction","Circle":{'
    '"diameter_m":"Polygon":{"points_m":[[0.0,0.0],[3.048,0.0],[6.096,"Readings":{"readings":[{"at":"2027-'
    '"Daily":{"low_k":283.15,"high_k":294.26111111111106,"coldest_at":"05:00:00"'
    '"round_the_clock":true,"shifts":[{"days":["mon","tue","wed","thu","fri","sat","sun"],"starts":"07:00:00",'
    '"ends":"15:30:00"}],"closed":["2027-03-08"],"lane_width_m":,"placing_rate_m2_s":0.01548384,"lane_depth_m":0.9144,'
    '"coating_rate_m2_s":0.0258064,"clearing_rate_m2_s":0.0516128'
    '"on_hand":[{"sku":"","packs":1}],"offers":[{"sku":"","price":"","available":'
    '"substrate":"concrete","age_s":,"poured":"2027-0","compressive_strength_pa":,"profile_csp":4,"thickness_m":0.127,'
    '"dries_from":"one-side","moisture_emission":[{"rate_kg_m2_s":},{"gain_kg":0.003,"exposure_hours":72.0,"area_m2":'
    '"relative_humidity":[{"percent":84.0,"depth_m":0.0508}],"pull_off":[{"strength_pa":,"failure":"concrete"}],'
    '"ph":9.5,"absorbs_water":true,"damp":false,"contaminants":[],"temperature_k":'
    '"terminations":[{"length_m":2.4384}],"cracks":[{"length_m":,"width_m":0.009525,"depth_m":0.0127}],'
    '"spalls":[{"area_m2":,"depth_m":"cutouts":[{"shape":{"Rectangle":{"length_m":,"width_m":}},"at_m":['
    '"drains":[{"shape":{"RoundDrain":{"diameter_m":0.2032}},"count":2},{"shape":{"TrenchDrain":{"length_m":6.096,'
    '"width_m":0.1524}}}],"joints":[{"length_m":8.5344,"line_m":[["kind":"moving","width_m":0.009525,"depth_m":0.0127}],'
    '"cove":{"length_m":36.576,"height_m":0.1016},"slope_percent":1.0,"thickness_m":0.00635,"profile_csp":5}'
    '"slab":{"age_s":3888000.0,"air":{"temperature_k":290.92777777777775,"humidity_percent":55.0},'
    '"work":{"start":"2027-03-05T06:00:00","zone":"America/Chicago","temperatures":{"Steady":{"temperature_k":'
    '291.4833333333333}},"material_temperature_k":294.26111111111106,"crew":{"mixing_stations":2,"minutes_per_mix":4.0,'
    '"preparation_s":21600.0,"reopen_by":"2027-03-09T05:00:00","traffic":"vehicle"},'
    '"order":{"waste_percent":5.0,"confidence":0.9,"optional_layers":["primer"],"colour":"slate","tax_percent":"8.25",'
    '"discount_percent":"0","delivery":"45.00","reference":"PO ","issued":"2027-03-01","price_book":"list"}}'
    '{"job":{"system":"level","rooms":[{"shape":{"Measured":{"area_m2":111.483648,"perimeter_m":}},"name":"Room",'
    '"shape":{"Rectangle":{"length_m":12.8016,"width_m":8.6868}}}],"thickness_m":0.0047625},"units":"us","revision":"'
    '","book":"","engine":"0.1.0"}'
)
DICTIONARY = _TEXT.encode()

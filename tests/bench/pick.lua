-- wrk takes the bodies of a file in turn, each thread from a place of its own
local bodies, at, threads = {}, 0, 0

function setup(thread)
  thread:set("first", threads)
  threads = threads + 1
end

function init(args)
  for line in io.lines(args[1]) do bodies[#bodies + 1] = line end
  at = first * 97
  wrk.method = "POST"
  wrk.headers["Content-Type"] = "application/json"
end

function request()
  at = at % #bodies + 1
  return wrk.format(nil, nil, nil, bodies[at])
end

function done(summary, latency, requests)
  local bad = summary.errors.status + summary.errors.connect + summary.errors.read + summary.errors.write + summary.errors.timeout
  io.write(string.format("RESULT %d %d %d %.0f %.0f\n", summary.requests, summary.duration, bad, latency:percentile(50), latency:percentile(99)))
end

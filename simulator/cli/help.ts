/** What `npm run simulate -- --help` prints. */
export const help = `Simulated piles that speak like real probes, and replay of measured series.

  npm run simulate -- [run] [options]       play a scenario
  npm run simulate -- replay FILE [options]  send a CSV series as if probes measured it now
  npm run simulate -- schema                 print the JSON Schema of scenario files

Where to
  --mqtt URL          broker, e.g. mqtt://127.0.0.1:1883 (the default)
  --username NAME     for the broker; the password is read from BRANHEARTH_MQTT_PASSWORD
  --root NAME         first part of every topic (default: piles)
  --payload FORM      object (default) or senml (RFC 8428)
  --lines PER         one connection per "probe" or per "site" (default: probe up to 64 probes)
  --csv FILE          write rows to FILE instead, "-" for standard output; nothing waits for a clock

When
  --speed N           N seconds of the piles per second, 1 to 3600 (default: 1)
  --start WHEN        date and time at which hour 0 falls, e.g. 2026-06-01T06:00:00Z, or "now".
                      Default: now; with --speed above 1, so long ago that the run ends now
  --clock JSON        the server clock, the same text as the server's BRANHEARTH_CLOCK, e.g.
                      {"startMs":1780293600000,"anchorMs":1780293600000,"speed":600}
                      (default: the variable itself). Hour 0 is then startMs unless --start says else
  --history H         begin H hours before hour 0: what is past goes out at once
                      (default: 0; 96 for the farm Saltmere)
  --duration H        hours to play after hour 0 (default: the scenario's days, or the whole series)

Which piles (run)
  --scenario FILE     YAML or JSON (examples in simulator/scenarios/), or one of
                      demo          the farm Saltmere (the default)
                      by-condition  piles that are all different, drawn around hot, dry, wet, cold ...
                      by-keeper     piles that are all different, drawn from keepers and their habits
                      by-mishap     piles that are all different, soundly meant, and something goes amiss with most
                      by-reading    piles that are all different, each read in a way of its own: each minute to once
                                    a day, in coarse steps, with losses and outages, probes in the wrong place
  --seed N            same seed, same weather, probes and faults (default: 1)
  --sites N           repeat the scenario's sites up to N
  --piles N           repeat its piles up to N over all sites, or make N different ones (default there:
                      20); at most 10,000 probes in all
  --step S            longest step of the model in seconds, 10 to 300 (default: 300)
  --truth FILE        also write what was really so, as JSON lines: each pile hourly, and at the end for
                      each the hours at which it passed 50 °C, dried, stalled, and its probes' faults

Which columns (replay)
  --take COL=PROBE.QUANTITY   once per column; quantity is temperature, humidity, moisture, co2,
                      battery, charge or rssi. Example: --take T12_C=litter-core.temperature
  --time COL          column of time (default: time). ISO 8601, or epoch seconds or milliseconds;
                      without a zone it is read as UTC. Only distances in time matter
  --site NAME         site the probes stand on (default: saltmere-yard)
  --unit U            C (default) or F for temperature columns

Stop with Ctrl-C: probes say "offline" and what is under way still arrives.
A broker on this machine: the server started with "npm start" brings one along.
`;

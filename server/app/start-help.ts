/** What `npm start -- --help` and `branhearth --help` print. */
export const startHelp = `Branhearth watches bran and soil piles, says how they are and what to do, and keeps the record.

  branhearth [start]        the server: pages at http://127.0.0.1:4180, probes publish to mqtt://127.0.0.1:1883
  branhearth demo           an invented farm to look at, on a scratch folder that is removed afterwards
  branhearth simulate       simulated probes for a broker, or a CSV file
  branhearth check          broker, stores, mail and push: what is wrong and how to mend it
  branhearth backup         everything into one checked file, also while the server is at work
  branhearth restore        a backup back into an empty folder
  branhearth move-readings  readings from one store to another
  branhearth move-journal   the journal to PostgreSQL, or back
  branhearth COMMAND --help

From the sources the same by npm: npm start, npm run demo, npm run backup -- FILE, ...

  --only ingest|web         one of several processes that share a farm (needs servers for all that is kept)
  --version
  --help

Settings are environment variables BRANHEARTH_*; server/README.md lists them. The usual ones:
  BRANHEARTH_DATA_DIR       folder for readings and journal (./data)
  BRANHEARTH_PORT, _HOST    where the pages are (4180, 127.0.0.1)
  BRANHEARTH_MQTT_HOST      0.0.0.0 lets probes of your network in, with a key
`;

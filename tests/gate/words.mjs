/**
 * One word for one thing: names, comments, tests and documents use the word of the field. Refused are words that once had a
 * meaning of their own here; where one of them is plain English, or the name of something stored, it is let through below.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Words, also as part of a name (`handOn`, `HOUSE_ID`), and what to say for them. */
const refused = [
  [/houses?/, 'server, app or installation'],
  [/told/, 'notified, shown, given, known'],
  [/tidings/, 'event'],
  [/hearers?/, 'recipient, listener'],
  [/heed(s|ed|ing)?/, 'matches'],
  [/door/, 'auth policy, client, port or repository'],
  [/knock(s|ed|ing)?/, 'connection attempt'],
  [/speakers?/, 'principal, client'],
  [/desks?/, 'service'],
  [/post(man|men)/, 'dispatcher'],
  [/errands?/, 'job'],
  [/deeds?/, 'action, mutation'],
  [/wish(es)?/, 'preference'],
  [/lent/, 'of another site'],
  [/commons/, 'default session'],
  [/thinn(ed|ing)/, 'downsampled, downsampling; to growers: reduced to averages'],
  [/seen hands?/, 'detected intervention'],
  [/hand ons?/, 'pass on; of an alarm: escalation', 'name'],
  [/held back by/, 'suppressed by', 'name'],
  [/look at/, 'evaluate, read, check', 'name'],
  [/use deed|use answer/, 'useMutation, useQuery', 'name'],
  [/look ahead|look now/, 'say what it does: evaluate, check, read', 'name'],
  [/spread notice|spread sites|spreading/, 'fan out; of sites: assign; of figures: dispersion', 'name'],
  [/(close|served|hottest|closest|probe) place|place c|place m|place history/, 'position', 'name'],
];

/** The same in some rooms only, in names and comments. */
const refusedIn = [
  [
    'core/',
    /(a|the|one|each|this|every|another|measured|hottest|const|all) places?/,
    'position; of a number: index, rank',
  ],
  ['shared/store/', /horizons?/, 'watermark'],
  ['shared/store/', /settle(s|d)?|settling|sweeps?|swept/, 'flush; of old rows: clean up'],
  ['ingest/client/', /marks?/, 'barrier'],
  ['server/', /horizons?/, 'watermark'],
  ['ingest/', /horizons?/, 'watermark'],
];

/** What stays: where (the beginning of its path), what stands there, and why. */
const stays = [
  ['', /farmhouse|greenhouse|household/i, 'plain English'],
  ['README.md', /the shed or the house/, 'where somebody lives'],
  ['shared/store/migrations/', /.*/, 'what was released is not changed'],
  ['server/notify/notification-links.ts', /'\/told\/'/, 'links in mails of earlier versions'],
  ['web/src/worker/worker.ts', /acknowledge\|told/, 'links in mails of earlier versions'],
  ['server/services/probe-keys/open-auth-policy.ts', /'door\.every-probe-needs-a-key'/, 'the key of a stored setting'],
  ['shared/store/journal/postgres-journal.ts', /branhearth_told/, 'the name of a stored trigger'],
  [
    'shared/store/',
    /(UPDATE|FROM|TABLE|INTO) "?thinning|`thinning( ms=|` has)/,
    'the name of a stored table and measurement',
  ],
  ['shared/store/readings/', /settled_(count|through)/g, 'names of stored columns'],
  ['shared/store/readings/schema.ts', /-- .*/, 'stands in files as it was written'],
  ['shared/messages/en/', /thinned with/, 'a starter in water'],
  ['server/services/import/entry-synonyms.ts', /'thinned'/, 'what growers write of a pile'],
  ['server/licences.md', /.*/, 'names of packages'],
  [
    'shared/store/',
    /horizon_ms|"horizon"|horizon=|and horizon \(the watermark\)/g,
    'the name of a stored column and field',
  ],
  ['tests/', /told/gi, 'plain English of what a test gives or reads: told apart, as told'],
  ['tests/', /\bdoors?\b/gi, 'a shed has one'],
  ['tests/server/', /\/told\//g, 'links in mails of earlier versions'],
  ['tests/shared/store/versions', /.*/, 'what was released is not changed'],
  [
    'tests/shared/store/postgres-journal.test.ts',
    /'house|"house"|told_link|hand_on/g,
    'what an earlier version kept in its tables',
  ],
  ['tests/gate/words.mjs', /.*/, 'the words themselves'],
  ['tests/bench/thin.ts', /thinned_per_s/, 'the name of a figure'],
  ['tests/node-lines/', /.*/, 'names of packages'],
  ['core/', /placeOf/, 'where somebody squeezed or saw growth: a field of an entry'],
];

const documents = ['DEVELOPERS.md', 'README.md', '*/README.md', '*/*/README.md', '*/*/*/README.md'];
const rooms = ['core', 'ingest', 'server', 'shared', 'simulator', 'tests', 'web'];
const isRead = (file) =>
  /\.(ts|tsx|mjs|css|md|yaml|json|html)$/.test(file) &&
  !file.startsWith('shared/messages/made/') &&
  existsSync(join(root, file));

/** @example inWords('handOnParts HAND_ON') // => "hand on parts hand on" */
const inWords = (text) =>
  text
    .replace(/(?<=[a-z0-9])(?=[A-Z])/g, ' ')
    .replace(/[_-]/g, ' ')
    .toLowerCase();
const names = (line) => (line.match(/[A-Za-z]+[A-Z_-][A-Za-z_-]*/g) ?? []).map(inWords).join('. ');

const faults = [];
const files = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', ...rooms, ...documents], {
  cwd: root,
  encoding: 'utf8',
});
for (const file of new Set(files.split('\n').filter(isRead))) {
  for (const [index, line] of readFileSync(join(root, file), 'utf8').split('\n').entries()) {
    const read = stays
      .filter(([path]) => file.startsWith(path))
      .reduce((text, [, what]) => text.replace(what, ''), line);
    const here = refusedIn.filter(([path]) => file.startsWith(path)).map(([, word, instead]) => [word, instead]);
    for (const [word, instead, where] of [...refused, ...here]) {
      const pattern = new RegExp(`\\b(${word.source})\\b`);
      const [found] = pattern.exec(where === 'name' ? names(read) : inWords(read)) ?? [];
      if (found !== undefined) faults.push(`${file}:${index + 1}: "${found}": say ${instead}`);
    }
  }
}
for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exitCode = 1;
else console.log(`words: none of ${refused.length} words of before in rooms and documents`);

/** What a key allows, who uses it, and who was turned away, in sentences. */
import type { Key, KeysAnswer, RefusedReason } from '../../../../shared/contracts/keys.ts';
import { ageWords } from '../../ui/format/age.ts';
import { capital, countWord } from '../../ui/format/words.ts';

export function reachWords({ site, probe, foreign, hears }: Pick<Key, 'site' | 'probe' | 'foreign' | 'hears'>): string {
  const also = foreign.length === 0 ? '' : `, and on ${foreign.join(', ')}`;
  const speaks = site === null ? '' : `Speaks for ${probe === null ? `all of ${site}` : `${site}/${probe}`}${also}.`;
  const heard = { own: '', warnings: 'Hears what warns.', everything: 'Hears everything.' }[hears];
  return [speaks, heard].filter((words) => words !== '').join(' ');
}

export function seenWords({ seen, revokedAt }: Key, nowMs: number): string {
  if (revokedAt !== null) return `Revoked ${ageWords(nowMs - Date.parse(revokedAt))}.`;
  if (seen === null) return 'Not seen since the last start.';
  if (seen.connected > 0) return `Connected now, from ${seen.address}.`;
  return `Seen last ${ageWords(nowMs - Date.parse(seen.lastAt))}, from ${seen.address}.`;
}

/** Who may come in, in one sentence. */
export function authRuleSentence({ keys, authPolicy, everyProbeNeedsAKey, networkIsTrusted }: KeysAnswer): string {
  const inForce = keys.filter((key) => key.revokedAt === null).length;
  const count =
    inForce === 0
      ? 'No key is in force'
      : `${capital(countWord(inForce))} ${inForce === 1 ? 'key is' : 'keys are'} in force`;
  if (authPolicy === 'outside') return `${count}; your own broker controls access.`;
  if (everyProbeNeedsAKey) return `${count}, and nobody comes in without one.`;
  if (networkIsTrusted) return `${count}; whoever reaches the broker comes in without one.`;
  return `${count}; programs of this machine come in without one.`;
}

export const refusedWords: Record<RefusedReason, { title: string; meaning: string }> = {
  'no-key': {
    title: 'Came without a key',
    meaning: 'Make a key for it under Keys for probes, and enter it there.',
  },
  'unknown-key': {
    title: 'Unknown user name',
    meaning: 'No key has this user name. Copy user name and password again, or make a new key.',
  },
  'wrong-secret': {
    title: 'Wrong password',
    meaning: 'The user name is right, the password is not. It is shown only once: if it is lost, make a new key.',
  },
  'revoked-key': {
    title: 'Revoked key',
    meaning: 'This key was revoked, and something still tries it. Give the device a new key, or switch it off.',
  },
  'too-many': {
    title: 'No place left',
    meaning:
      'All connections there may be at once, or from one address, are taken. BRANHEARTH_MQTT_CONNECTIONS says how many.',
  },
  'too-many-of-key': {
    title: 'Too many connections with one key',
    meaning:
      'A key for one probe may be connected 32 times at once, a key for a site with a fifth of all connections there may be. Give each device a key of its own, and a client id that stays the same.',
  },
  'too-fast': {
    title: 'Sends too fast',
    meaning:
      'It is read no faster than BRANHEARTH_MQTT_RATE allows; the rest waits at the sender. Let it measure less often.',
  },
  'too-long-packet': {
    title: 'Sent a packet that is too long',
    meaning:
      'The connection was ended before the packet was read. A request to hear topics may take 32 KiB, the first packet of a connection 16 KiB.',
  },
  'too-long-client-id': {
    title: 'Calls itself by too long a name',
    meaning: 'Its client id, together with its user name, must be at most 512 characters long. Give it a shorter one.',
  },
  'too-much-under-way': {
    title: 'Left too many messages half sent',
    meaning:
      'It began more than 1,000 messages at QoS 2 without finishing them, so the connection was ended. Let it publish at QoS 1.',
  },
  'too-slow': {
    title: 'Said nothing',
    meaning: 'It connected and did not say who it is within ten seconds.',
  },
};

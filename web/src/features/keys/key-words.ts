/** What a key allows and who uses it, in sentences. */
import type { Key, KeysAnswer } from '../../../../shared/contracts/keys.ts';
import type { KeyWords } from './use-key-words.ts';

type Words = Pick<KeyWords, 'text'>;

export const isInForce = ({ revokedAt }: Key) => revokedAt === null;

export function reachWords(key: Pick<Key, 'site' | 'probe' | 'foreign' | 'hears'>, words: Words): string {
  const sends = sendsWords(key, words);
  return key.hears === 'own' ? sends : [sends, words.text(`page-keys.reach.${key.hears}`)].filter(Boolean).join(' ');
}

function sendsWords({ site, probe, foreign }: Pick<Key, 'site' | 'probe' | 'foreign'>, { text }: Words): string {
  if (site === null) return '';
  const params = { siteName: site, probeName: probe ?? '', topicsText: foreign.join(', ') };
  if (probe === null) return text(`page-keys.reach.site${foreign.length === 0 ? '' : '-and-foreign'}`, params);
  return text(`page-keys.reach.probe${foreign.length === 0 ? '' : '-and-foreign'}`, params);
}

export function seenWords({ seen, revokedAt }: Key, nowMs: number, { text }: Words): string {
  if (revokedAt !== null) return text('page-keys.seen.revoked', { revokedAgoMs: nowMs - Date.parse(revokedAt) });
  if (seen === null) return text('page-keys.seen.never');
  if (seen.connected > 0) return text('page-keys.seen.connected', { addressText: seen.address });
  return text('page-keys.seen.last', { seenAgoMs: nowMs - Date.parse(seen.lastAt), addressText: seen.address });
}

/** The code of who may connect, in one sentence. */
export function authRuleCode({ authPolicy, everyProbeNeedsAKey, networkIsTrusted }: KeysAnswer) {
  if (authPolicy === 'outside') return 'page-keys.rule.now.outside';
  if (everyProbeNeedsAKey) return 'page-keys.rule.now.every';
  return networkIsTrusted ? 'page-keys.rule.now.trusted' : 'page-keys.rule.now.here';
}

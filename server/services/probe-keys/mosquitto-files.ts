/**
 * The same keys for a Mosquitto of your own, as its password file and its access file. It never names a revoked key:
 * what is not in the files cannot come in once they are in place.
 */
import type { KeyReach } from '../../../shared/probe-key.ts';
import { siteStateFilters, warningFilters } from '../../../shared/published-topics.ts';
import type { ProbeKeyRecord } from '../../../shared/store/journal.ts';
import { mosquittoHash } from './secret.ts';

export interface InstallationAccount {
  readonly username: string | undefined;
  readonly password: string | undefined;
}

export function passwordFile(keys: readonly ProbeKeyRecord[], installation: InstallationAccount): string {
  const lines = inForce(keys).map(({ id, mosquittoHash: hash }) => `${id}:${hash}`);
  // Mosquitto takes no comment in this file, so the server is either there or not.
  const own =
    installation.username === undefined || installation.password === undefined
      ? []
      : [`${installation.username}:${mosquittoHash(installation.password)}`];
  return [...own, ...lines].map((line) => `${line}\n`).join('');
}

export function accessFile(keys: readonly ProbeKeyRecord[], root: string, installation: InstallationAccount): string {
  const parts = [
    [
      '# Who may publish and read what. Made by Branhearth from its keys; make it anew after making or revoking one.',
      '# Nobody without a name in here reads or writes anything.',
    ],
    installation.username === undefined
      ? ['# Set BRANHEARTH_MQTT_USERNAME and _PASSWORD, make this file again, and the server itself stands here.']
      : ['# The server itself', `user ${installation.username}`, 'topic readwrite #', 'topic read $SYS/#'],
    ...inForce(keys).map((key) => [`# ${oneLine(key.name)}`, `user ${key.id}`, ...topicLines(key, root)]),
  ];
  return parts.map((part) => `${part.join('\n')}\n`).join('\n');
}

function topicLines({ site, probe, foreign, hears }: KeyReach, root: string): string[] {
  const own = site === null ? [] : [`topic readwrite ${root}/${site}/${probe === null ? '+/+' : `${probe}/#`}`];
  const heard = {
    own: [],
    warnings: warningFilters(root).map((filter) => `topic read ${filter}`),
    everything: ['topic read #'],
  }[hears];
  const states =
    site === null || probe !== null ? [] : siteStateFilters(root, site).map((filter) => `topic read ${filter}`);
  return [...own, ...states, ...foreign.map((filter) => `topic write ${filter}`), ...heard];
}

const inForce = (keys: readonly ProbeKeyRecord[]) => keys.filter(({ revokedAtMs }) => revokedAtMs === null);

/** A name with a line break in it would write lines of its own. */
const oneLine = (name: string) => name.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ');

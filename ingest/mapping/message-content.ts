/**
 * What stands in a message of an unknown device, for a person to press what they want of it. Bounded, whatever the
 * message holds.
 */
import type { MessageContent, MessageValue } from '../../shared/contracts/ingest.ts';
import { parseInstant } from '../../shared/contracts/time.ts';
import { jsonOf } from '../../shared/json-of.ts';
import { pointerTo } from '../../shared/pointer-names.ts';
import { guessValue } from './guess-value.ts';
import { parseLocalTime } from './local-time.ts';
import { parseValueText } from './value-text.ts';

const mostValues = 100;
const mostNames = 20;
const mostLooked = 2_000;
const deepest = 8;
const longestText = 60;

/** What tells members of a list apart, where they stand in another order the next time. */
const idName = /^(id|address|addr|mac|serial|sn|rom|uid|eui|deveui|dev_eui|name|sensor|sensor_?id)$/i;
const timeName = /^(time|timestamp|ts|when|at|date|datetime|date_?time|last_?seen|measured_?at|received_?at|utc|t)$/i;

/** Members of a list or an object that are known by a name of their own. */
interface Member {
  readonly each: string;
  readonly only: { readonly pointer: string; readonly is: string };
}

interface Place {
  readonly path: readonly string[];
  /** From the member on, where it stands in one; else from the whole message on. */
  readonly pointer: string;
  readonly member: Member | undefined;
}

export function contentOf(topic: string, payload: string): MessageContent {
  const values: MessageValue[] = [];
  const names: MessageContent['names'] = [];
  let time: MessageContent['time'] = null;
  let looked = 0;

  function leaf(found: unknown, { path, pointer, member }: Place): void {
    if (typeof found !== 'number' && typeof found !== 'string') return;
    const said = timeSaid(found, path.at(-1) ?? '');
    if (said !== undefined) {
      time ??= { pointer, isLocal: said === 'local' };
      return;
    }
    const read = typeof found === 'number' ? { number: found, unit: '' } : parseValueText(found);
    const isId = member?.only.pointer === pointer;
    if (read !== undefined && !isId && values.length < mostValues) {
      values.push({ pointer, ...member, path: [...path], text: cut(String(found)), ...guessValue(read, path, topic) });
    } else if (names.length < mostNames && found !== '' && String(found).length <= longestText) {
      names.push({ pointer, ...(member && { each: member.each }), text: String(found) });
    }
  }

  function walk(here: unknown, place: Place, depth: number): void {
    looked += 1;
    if (looked > mostLooked || depth > deepest) return;
    if (typeof here !== 'object' || here === null) {
      leaf(here, place);
      return;
    }
    const whole = place.member === undefined ? place.pointer : undefined;
    const members = whole === undefined ? undefined : knownMembers(Object.values(here));
    for (const [name, child] of Object.entries(here).slice(0, mostLooked)) {
      const id = members?.get(child);
      const path = [...place.path, cut(name)];
      const pointer = pointerTo(place.pointer, name);
      if (id === undefined || whole === undefined) walk(child, { path, pointer, member: place.member }, depth + 1);
      else
        walk(child, { path: [...place.path, cut(id.is)], pointer: '', member: { each: whole, only: id } }, depth + 1);
    }
  }

  const document = jsonOf(payload);
  walk(document === undefined ? payload : document, { path: [], pointer: '', member: undefined }, 0);
  return { values: values.filter(isReachable), names: names.filter(isReachable), time };
}

/** What a mapping can name: neither of its pointers is too long. */
const isReachable = ({ pointer, each = '' }: { pointer: string; each?: string | undefined }) =>
  pointer.length <= 512 && each.length <= 512;

/** Of each member that is an object with an id, that; undefined where one has none, or two have the same. */
function knownMembers(members: readonly unknown[]): ReadonlyMap<unknown, Member['only']> | undefined {
  const objects = members.slice(0, mostLooked).filter((one) => typeof one === 'object' && one !== null);
  const known = new Map(objects.flatMap((one) => idOf(one)?.map((id) => [one, id] as const) ?? []));
  const different = new Set([...known.values()].map(({ is }) => is));
  return known.size > 0 && different.size === known.size ? known : undefined;
}

function idOf(member: object): Member['only'][] | undefined {
  if (Array.isArray(member)) return undefined;
  for (const [name, found] of Object.entries(member).slice(0, mostValues)) {
    if (!idName.test(name) || (typeof found !== 'string' && typeof found !== 'number')) continue;
    const is = String(found);
    if (is !== '' && is.length <= 128) return [{ pointer: `/${name}`, is }];
  }
  return undefined;
}

/** A bare number is no time by itself: a name must say it is one, and it must be one of our days. */
function timeSaid(found: string | number, name: string): 'instant' | 'local' | undefined {
  if (typeof found === 'string' && parseLocalTime(found.trim()) !== undefined) return 'local';
  if (typeof found === 'string' && found.includes('-') && parseInstant(found) !== undefined) return 'instant';
  const atMs = timeName.test(name) ? parseInstant(found) : undefined;
  return atMs !== undefined && atMs >= earliestMs ? 'instant' : undefined;
}

/** 2017-07-14, when epoch seconds passed 1.5 thousand millions: no probe measures so much of anything. */
const earliestMs = 1.5e12;

const cut = (text: string) => (text.length > longestText ? `${text.slice(0, longestText - 1)}…` : text);

/**
 * The ensemble's members in a fifth of the room, without losing a digit.
 *
 * A heap changes its pace slowly, so of each hour only the departure from a straight line through the two hours before
 * is kept, in a Rice code: its last k bits, and before them as many zeros as the rest counts (Golomb, IEEE Trans. Inf.
 * Theory 12, 399-401, 1966; Rice, JPL Publication 79-22, 1979; k chosen as JPEG-LS does; all from memory). It never
 * rounds: a forecast from packed members is the same to the last digit.
 */
import type { MemberCurves, PackedMembers } from './band.ts';
import { BitsIn, BitsOut } from './bits.ts';

/** Bits that hold k, the greatest k they can hold, and bits of each of the two first hours: sizes of the packing, which lose nothing. */
const kBits = 4;
const mostK = 15;
const firstBits = 16;
/** So many zeros say that the departure follows as it is, in `wholeBits`: four times the range of a member fits. */
const tooMany = 20;
const wholeBits = 18;

export function packMembers({ count, steps, firstHour, coreCentiC }: MemberCurves): PackedMembers {
  const out = new BitsOut();
  const departures = new Int32Array(Math.max(0, steps - 1));
  for (let member = 0; member < count && steps > 0; member += 1) {
    const from = member * steps;
    let sum = 0;
    for (let step = 1; step < steps; step += 1) {
      const before = coreCentiC[from + step - 1] ?? 0;
      const straight = step === 1 ? before : 2 * before - (coreCentiC[from + step - 2] ?? 0);
      const departure = (coreCentiC[from + step] ?? 0) - straight;
      const folded = departure >= 0 ? 2 * departure : -2 * departure - 1; // small ones of either sign are small
      departures[step - 1] = folded;
      sum += folded;
    }
    let k = 0;
    while (k < mostK && departures.length * 2 ** k < sum) k += 1;
    out.put(k, kBits);
    out.put((coreCentiC[from] ?? 0) & 0xffff, firstBits);
    for (const folded of departures) {
      const zeros = folded >> k;
      if (zeros < tooMany) {
        out.put(2 ** zeros, zeros + 1);
        out.put(folded & (2 ** k - 1), k);
      } else {
        out.put(2 ** tooMany, tooMany + 1);
        out.put(folded, wholeBits);
      }
    }
  }
  return { count, steps, firstHour, packed: out.bytes() };
}

let room = new Int16Array(0);
let lastPacked: Uint8Array | undefined;

/** Members as they are looked at. What was packed is only good until the next are unpacked: use it and forget it. */
export function openMembers(members: MemberCurves | PackedMembers): MemberCurves {
  if (!('packed' in members)) return members;
  const { count, steps, firstHour, packed } = members;
  if (room.length < count * steps) room = new Int16Array(count * steps);
  // A pile that is read from its start is looked at hour after hour.
  if (lastPacked !== packed) unpack(room, members);
  lastPacked = packed;
  return { count, steps, firstHour, coreCentiC: room };
}

function unpack(into: Int16Array, { count, steps, packed }: PackedMembers): void {
  const bits = new BitsIn(packed);
  for (let member = 0; member < count && steps > 0; member += 1) {
    const k = bits.take(kBits);
    let at = member * steps;
    const end = at + steps;
    let before = (bits.take(firstBits) << 16) >> 16; // its sign back
    let straight = before;
    into[at] = before;
    for (at += 1; at < end; at += 1) {
      const zeros = bits.zeros();
      const folded = zeros < tooMany ? (zeros << k) | bits.take(k) : bits.take(wholeBits);
      const value = straight + ((folded >> 1) ^ -(folded & 1));
      into[at] = value;
      straight = 2 * value - before;
      before = value;
    }
  }
}

/** What a reader of one family of devices takes and gives. It never throws, whatever a message holds. */

import type { Quantity } from '../../shared/quantity.ts';
import type { Arrival, Where } from '../decode/decoded.ts';

export interface DeviceMessage {
  readonly topic: string;
  readonly levels: readonly string[];
  readonly text: string;
  readonly arrival: Arrival;
  /** The payload as a JSON object or list; undefined when it is none. Parsed once, when asked for. */
  body(): unknown;
  /** The same where it is an object. */
  json(): JsonObject | undefined;
}

export type JsonObject = Readonly<Record<string, unknown>>;

/** One value as the device said it. */
export interface DeviceValue {
  readonly quantity: Quantity;
  /** Which sensor of the device; '' where it is the device itself. Stable: it becomes part of the probe's name. */
  readonly part: string;
  /** As it stood: a number, or text with one. What a device has no reading for (null, nan) is no value. */
  readonly found: unknown;
  /** A unit of `quantityFacts`; undefined means the one we keep. */
  readonly unit?: string | undefined;
  /** Where it stood, for the sentence of a refusal. */
  readonly where: Where;
}

export interface DeviceReport {
  /** Whose availability this device's is: itself, or the gateway that heard it. */
  readonly via: string;
  /** The device, by what stays the same when it restarts; becomes the probe's name. */
  readonly device: string;
  /** As people know it. */
  readonly label?: string | undefined;
  readonly values: readonly DeviceValue[];
  /** When it was measured, as it stood; undefined = at arrival, and not known where the message lay in the broker. */
  readonly time?: string | number | undefined;
  /** After so long without a word the device counts as gone. */
  readonly expireMs?: number | undefined;
  /** Where it is not the reader's own: a device that discovery tells of may be of a family that is read without it. */
  readonly family?: string | undefined;
}

/** A device, or a gateway for all it hears, is there or not. */
export interface DeviceAvailability {
  readonly via: string;
  readonly online: boolean;
  readonly family?: string | undefined;
}

/** `ours` is a message of the family that holds no reading, such as a description. */
export type FamilySays = readonly DeviceReport[] | DeviceAvailability | 'ours' | undefined;

export interface DeviceFilter {
  readonly filter: string;
  /** Its readings carry their time, so that those of a time when we were away may come later: QoS 1. */
  readonly timed?: boolean;
}

export interface FamilyReader {
  /** @returns undefined when the message is none of this family. */
  read(message: DeviceMessage): FamilySays;
}

export interface DeviceFamily {
  /** As it stands in answers of the API. */
  readonly id: string;
  /** What to hear of it at an outside broker; a message that matches none is not shown to `read`. */
  readonly filters: readonly DeviceFilter[];
  /** Opens a reader with a memory of its own, bounded. */
  open(): FamilyReader;
}

/** As nearly all say it, by their last will too; any other word is no word of availability. */
export function availabilityBy(via: string, word: unknown): DeviceAvailability | undefined {
  return word === 'online' || word === 'offline' ? { via, online: word === 'online' } : undefined;
}

export const isObject = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The object at this key, or nothing. */
export const objectAt = (object: JsonObject, key: string): JsonObject | undefined => {
  const found = Object.hasOwn(object, key) ? object[key] : undefined;
  return isObject(found) ? found : undefined;
};

export const textAt = (object: JsonObject, key: string): string | undefined => {
  const found = Object.hasOwn(object, key) ? object[key] : undefined;
  return typeof found === 'string' ? found : undefined;
};

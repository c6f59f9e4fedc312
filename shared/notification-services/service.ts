/** What a service that brings messages is known by, and what a person fills in for it. */
import { z } from 'zod';
import { isHttpAddress } from '../http-address.ts';
import { fieldCode } from '../messages/field-code.ts';

interface ServiceField {
  readonly schema: z.ZodType<string>;
  /** Kept, and never given back. */
  readonly isSecret?: true;
  /** Whether it may be left empty. */
  readonly isOptional?: true;
  /** Stands there before anything is filled in. */
  readonly usual?: string;
}

export interface NotificationService {
  /** As it is called everywhere, in every language. */
  readonly name: string;
  /** Where it answers, for a service that there is one of. */
  readonly home?: string;
  readonly fields: Readonly<Record<string, ServiceField>>;
}

/** Spaces and line ends come along when something is copied; within they would end a header or an address. */
const line = z.string().trim().min(1).max(500);
export const plainToken = line.regex(/^[\x21-\x7e]+$/, fieldCode('field.token'));

export const serverAddress = line.refine(isHttpAddress, fieldCode('field.http'));

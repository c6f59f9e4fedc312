/** How one service is spoken to: what is asked of it, and what its answers mean. */
import type { ServiceValues } from '../../../../shared/notification-services/services.ts';
import type { Job } from '../channel.ts';
import type { GuardedAsk } from '../guarded-request.ts';
import { contentLines } from '../render-content.ts';

export interface ServiceMessage {
  readonly job: Job;
  readonly values: ServiceValues;
  /** Where the service answers, without a slash at its end. */
  readonly server: string;
  /** How much it matters: 0 calm, 1 warning, 2 urgent, 3 danger. */
  readonly gravity: 0 | 1 | 2 | 3;
  /** Words of the two ways on from a message. */
  readonly words: { readonly seenIt: string; readonly look: string };
  /** Those of them that there are. */
  readonly ways: readonly { readonly label: string; readonly url: string }[];
}

export interface ServiceSender {
  ask(message: ServiceMessage): GuardedAsk;
  /** What was wrong, in the service's own words, where its answer holds any. */
  fault(body: unknown): string | undefined;
  /** When to come again, where the body says so rather than the header [ms]. */
  retryAfterMs?(body: unknown): number | undefined;
  /** Of what was taken: by what it can be asked whether somebody has acknowledged it. */
  receiptOf?(body: unknown): string | undefined;
  /** Statuses below 300 with which nothing was sent. */
  readonly notSent?: readonly number[];
  /** Statuses of 400 to 499 that pass, beside those that do so everywhere. */
  readonly passing?: readonly number[];
}

/** A body as JSON, with its headers. */
export function jsonAsk(
  method: 'POST' | 'PUT',
  url: string,
  body: object,
  headers: Readonly<Record<string, string>> = {},
): GuardedAsk {
  const text = JSON.stringify(body);
  return {
    method,
    url,
    body: text,
    headers: {
      'Content-Type': 'application/json; charset=utf-8',
      'Content-Length': Buffer.byteLength(text),
      ...headers,
    },
  };
}

/** Sentence and parts, a line each, within what a service takes. */
export function plainText({ content }: Job, mostCharacters: number): string {
  const text = contentLines(content);
  return text.length > mostCharacters ? `${text.slice(0, mostCharacters - 1)}…` : text;
}

/** A way on, where there are no buttons. */
export const inText = ({ label, url }: ServiceMessage['ways'][number]): string => `${label}: ${url}`;

/** A text of an object, where it stands. */
export function textAt(body: unknown, key: string): string | undefined {
  const value = typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[key] : undefined;
  return typeof value === 'string' && value !== '' ? value : undefined;
}

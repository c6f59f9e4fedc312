/** One request to the server and its answer, checked. It never lets an unchecked answer into the page. */
import type { z } from 'zod';
import { type Problem, problemSchema } from '../../../shared/contracts/problem.ts';
import { language } from './language.ts';
import { forgetAnswers, keepAnswer, recallAnswer, whoAsks } from './last-answers.ts';
import { notNumbers, notNumbersProblem } from './not-numbers.ts';
import { isHeldUp } from './owed-sign-out.ts';
import { type Patience, startPatience } from './patience.ts';
import { bearerToken } from './prefs.ts';
import { textNow } from './text-now.ts';
import { wordProblem } from './word-problem.ts';

/** The server said no, and why. */
export class ApiProblem extends Error {
  override readonly name = 'ApiProblem';
  constructor(readonly problem: Problem) {
    super(problem.detail || problem.title);
  }
  /** What is wrong with one field, by its JSON Pointer. */
  fieldDetail(pointer: string): string | undefined {
    return this.problem.errors?.find((error) => error.pointer === pointer)?.detail;
  }
}

/** The server did not answer, or not in words we know. */
export class NoAnswer extends Error {
  override readonly name = 'NoAnswer';
}

export interface Ask {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  readonly body?: unknown;
  readonly signal?: AbortSignal;
  /** False where an old answer would not do. */
  readonly recall?: boolean;
  /** After so long there is no answer [ms]; of what only asks `defaultPatienceMs` unless given, else none. */
  readonly patienceMs?: number;
}

/** Longer than the slowest of our answers takes; no source. */
const defaultPatienceMs = 45_000;

/** Whoever wants to know that a token is missing or wrong; set once by the live connection. */
let onUnauthorised: () => void = () => {};
export function whenUnauthorised(act: () => void): void {
  onUnauthorised = act;
}

export function requestHeaders(extra: Record<string, string> = {}): Record<string, string> {
  const token = bearerToken();
  return {
    ...extra,
    ...(token && { authorization: `Bearer ${token}` }),
    'accept-language': language,
  };
}

export async function ask<Schema extends z.ZodType>(
  schema: Schema,
  path: string,
  asked: Ask = {},
): Promise<z.output<Schema>> {
  const { method = 'GET', recall = true } = asked;
  // Signing in or out: what this device knows is another person's from now on.
  if (method !== 'GET' && /^\/api\/(session|links\/use)$/.test(path)) await forgetAnswers();
  const asker = whoAsks();
  try {
    const answer = await askInstallation(schema, path, asked);
    if (method === 'GET') void keepAnswer(path, answer.said, asker);
    return answer.checked;
  } catch (error) {
    const last = recall && method === 'GET' && isOutOfReach(error) ? await recallAnswer(path) : undefined;
    const checked = last && schema.safeParse(last.answer);
    if (!checked?.success || asker !== whoAsks()) throw error;
    return checked.data;
  }
}

/** Nobody answered, or a gateway did in place of the server. */
function isOutOfReach(error: unknown): boolean {
  if (error instanceof ApiProblem) return [502, 504].includes(error.problem.status);
  return error instanceof NoAnswer;
}

async function askInstallation<Schema extends z.ZodType>(
  schema: Schema,
  path: string,
  { method = 'GET', body, signal, patienceMs = method === 'GET' ? defaultPatienceMs : undefined }: Ask,
): Promise<{ said: unknown; checked: z.output<Schema> }> {
  if (isHeldUp(method, path)) throw new NoAnswer(textNow('page-words.held-up'));
  const unreadable = notNumbers(body);
  if (unreadable.length > 0) throw new ApiProblem(notNumbersProblem(unreadable));
  const patience = startPatience(patienceMs, signal);
  try {
    const headers = requestHeaders({
      accept: 'application/json',
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    });
    const init = { method, headers, ...(body === undefined ? {} : { body: JSON.stringify(body) }) };
    const response = await send(path, init, patience);
    const answer = response.status === 204 ? undefined : await jsonOf(response);
    return await checkedAnswer(schema, path, response, answer);
  } finally {
    patience.end();
  }
}

async function checkedAnswer<Schema extends z.ZodType>(
  schema: Schema,
  path: string,
  response: Response,
  answer: unknown,
): Promise<{ said: unknown; checked: z.output<Schema> }> {
  if (!response.ok) throw await refusal(response.status, answer);
  const checked = schema.safeParse(answer);
  if (!checked.success) {
    throw new NoAnswer(textNow('page-words.unreadable', { pathText: path }), { cause: checked.error });
  }
  return { said: answer, checked: checked.data };
}

async function send(path: string, init: RequestInit, patience: Patience): Promise<Response> {
  try {
    return await fetch(path, { ...init, signal: patience.signal });
  } catch (error) {
    if (!patience.isOver() && error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new NoAnswer(textNow('page-words.no-answer'), { cause: error });
  }
}

async function jsonOf(response: Response): Promise<unknown> {
  try {
    return await response.json();
  } catch {
    return undefined;
  }
}

async function refusal(status: number, answer: unknown): Promise<ApiProblem> {
  if (status === 401) {
    void forgetAnswers();
    onUnauthorised();
  }
  const known = problemSchema.safeParse(answer);
  if (known.success) return new ApiProblem(await wordProblem(known.data));
  return new ApiProblem(unexplained(status));
}

/** A refusal that says nothing itself. */
export function unexplained(status: number): Problem {
  const detail = textNow('page-words.refused.says', { statusText: String(status) });
  return { type: 'about:blank', title: textNow('page-words.refused'), status, detail };
}

/** What to tell the person about whatever was thrown. */
export function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

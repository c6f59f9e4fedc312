/**
 * A refusal in the language and units of whoever reads here: the server knows the language, but not in which units an amount is read.
 */
import type { Problem } from '../../../shared/contracts/problem.ts';
import { sayNow } from './say-now.ts';

/** @returns The problem with its sentences made here; as the server said it where it has no messages, or their texts cannot be loaded. */
export async function wordProblem(problem: Problem): Promise<Problem> {
  if (problem.messages === undefined) return problem;
  const words = await import('./problem-words.ts').catch(() => undefined);
  if (words === undefined) return problem;
  const say = sayNow(words.renderProblem);
  const { title, detail } = problem.messages;
  return {
    ...problem,
    title: say(title),
    detail: say(detail),
    ...(problem.errors && {
      errors: problem.errors.map((field) =>
        field.messages ? { ...field, detail: say(field.messages.detail) } : field,
      ),
    }),
  };
}

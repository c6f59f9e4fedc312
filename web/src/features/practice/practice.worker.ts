/** The pile, its judge and the heavy sums, away from the thread that draws. */
import { config } from 'zod';
import { practiceScenarios } from '../../../../simulator/practice/practice-scenarios.ts';
import type { Answered, Question, Reply } from './practice-messages.ts';
import { openSession, type Session } from './practice-session.ts';

// The content security policy forbids code made from strings, which zod would otherwise try first.
config({ jitless: true });

let session: Session | undefined;

function answerTo(question: Question): Answered {
  if (question.kind === 'open') {
    const scenario = practiceScenarios.find(({ id }) => id === question.scenarioId);
    if (!scenario) throw new Error(`No practice pile "${question.scenarioId}"`);
    session = openSession(scenario, question.seed);
    return { frame: session.frame() };
  }
  if (!session) throw new Error('No practice run is open');
  switch (question.kind) {
    case 'advance':
      return session.advance(question.hours);
    case 'act':
      return session.act(question.act);
    case 'acknowledge':
      return { frame: session.acknowledge(question.alarmId) };
  }
}

addEventListener('message', ({ data }: MessageEvent<Question>) => {
  let reply: Reply;
  try {
    const answered = answerTo(data);
    const debrief = answered.frame.ended ? session?.debrief() : undefined;
    reply = { answered: debrief ? { ...answered, debrief } : answered };
  } catch (error) {
    reply = { fault: error instanceof Error ? error.message : String(error) };
  }
  postMessage(reply);
});

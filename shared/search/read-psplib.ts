/**
 * The text format of PSPLIB's single-mode sets: sections under their own titles, rows of numbers, jobs counted from 1.
 * What it reads has the shape of the JSON form and is checked as that is.
 */
import { PlanError } from '../errors.ts';

const PRECEDENCE = 'PRECEDENCE RELATIONS';
const REQUESTS = 'REQUESTS/DURATIONS';
const AVAILABLE = 'RESOURCEAVAILABILITIES';

export function looksLikePsplib(text: string): boolean {
  return text.includes(PRECEDENCE);
}

/** @throws PlanError `bad-request` where a section is missing or a job has several modes */
export function readPsplib(text: string): unknown {
  const name = /file with basedata\s*:\s*(\S+)/.exec(text)?.[1];
  const successors = rowsOf(text, PRECEDENCE);
  const requests = rowsOf(text, REQUESTS);
  const [resources = []] = rowsOf(text, AVAILABLE);
  if (/\b(?:nonrenewable|doubly constrained)\s*:\s*[1-9]/.test(text))
    throw refusal('it has resources that are used up');
  if (successors.length !== requests.length)
    throw refusal(`${successors.length} jobs have successors and ${requests.length} have requests`);
  const activities = successors.map(([job, modes, count, ...next], v) => {
    const [sameJob, , duration, ...demands] = requests[v]!;
    if (modes !== 1) throw refusal(`job ${job} has ${modes} modes`);
    if (job !== v + 1 || sameJob !== v + 1) throw refusal(`job ${v + 1} is not where it should be`);
    if (count !== next.length) throw refusal(`job ${job} has ${next.length} successors, not ${count}`);
    return { d: duration, r: demands, succ: next.map((w) => w - 1) };
  });
  return { ...(name === undefined ? {} : { name }), resources, activities };
}

// Helpers

/** The rows of numbers below a title, up to the next line of stars. */
function rowsOf(text: string, title: string): number[][] {
  const from = text.indexOf(title);
  if (from < 0) throw refusal(`the section ${title} is missing`);
  const [section = ''] = text.slice(from).split(/^\*+\s*$/m);
  return section
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => /^\d[\d\s]*$/.test(line))
    .map((line) => line.split(/\s+/).map(Number));
}

function refusal(why: string): PlanError {
  const errors = [{ pointer: '', detail: `must be a single-mode PSPLIB file: ${why}` }];
  return new PlanError(`This is not a single-mode PSPLIB file: ${why}.`, { code: 'bad-request', errors });
}

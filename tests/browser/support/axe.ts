/** What a screen reader would stumble over, by axe. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Device } from './house.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Before the first page of a device: the check comes in by the debugger's door, the page's own policy lets no script in. */
export async function withAxe({ context }: Device): Promise<void> {
  await context.addInitScript(AXE);
}

interface Finding {
  readonly id: string;
  readonly impact: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** Runs in the page. */
export async function seriousFindings(): Promise<string[]> {
  const { axe } = globalThis as unknown as {
    axe: { run: (root: unknown, options: object) => Promise<{ violations: Finding[] }> };
  };
  const { violations } = await axe.run(document, { resultTypes: ['violations'] });
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(
      ({ id, nodes }) =>
        `${id}: ${nodes.map(({ html, failureSummary }) => `${html.slice(0, 200)} ${failureSummary}`).join(' | ')}`,
    );
}

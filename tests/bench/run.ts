/** `npm run bench -- NAME`: runs `NAME.bench.ts` of this folder. Without a name, or with an unknown one, lists them. */
import { readdirSync } from 'node:fs';

const SUFFIX = '.bench.ts';

const names = readdirSync(new URL('.', import.meta.url))
  .filter((file) => file.endsWith(SUFFIX))
  .map((file) => file.slice(0, -SUFFIX.length))
  .sort();
const [name] = process.argv.slice(2);

if (name !== undefined && names.includes(name)) {
  const bench = (await import(new URL(`${name}${SUFFIX}`, import.meta.url).href)) as { run: () => unknown };
  await bench.run();
} else {
  if (name !== undefined) {
    process.stderr.write(`There is no bench called ${name}.\n`);
    process.exitCode = 1;
  }
  process.stdout.write(
    `npm run bench -- NAME, where NAME is one of:\n${names.map((one) => `  ${one}\n`).join('')}`,
  );
}

/** What the server is started with: flags over environment over defaults. */
import { homedir } from 'node:os';
import { isAbsolute, join } from 'node:path';
import { parseArgs } from 'node:util';
import { PlanError } from '#shared/errors.ts';

export interface Config {
  readonly port: number;
  readonly host: string;
  /** Folder of the store; by default never inside the code. */
  readonly data: string;
  /** Put the demo into an empty store. */
  readonly demo: boolean;
}

const DEFAULT_PORT = 4180;
const LOOPBACK = ['localhost', '127.0.0.1', '::1'];

const OPTIONS = {
  port: { type: 'string' },
  host: { type: 'string' },
  data: { type: 'string' },
  'no-demo': { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
} as const;

const USAGE = 'npm start -- [--port NUMBER] [--host localhost] [--data FOLDER] [--no-demo] [--help]';

export function helpText(env: Environment): string {
  return `${USAGE}

  --port NUMBER   where to listen, ${DEFAULT_PORT} by default; 0 takes any free port       (or PORT)
  --host NAME     ${LOOPBACK.join(', ')}: this machine only                    (or HOST)
  --data FOLDER   where the store lies, ${defaultFolder(env)} by default  (or COVERLAST_DATA)
  --no-demo       leave an empty store empty
`;
}

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * @returns null when help was asked for
 * @throws PlanError `bad-usage`
 */
export function readConfig(args: readonly string[], env: Environment): Config | null {
  const { values, positionals, tokens } = parseArgs({
    args: [...args],
    options: OPTIONS,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  if (values.help === true) return null;
  for (const token of tokens)
    if (token.kind === 'option') checkOption(token.name, token.rawName, token.value);
  if (positionals.length > 0) throw usage(`"${positionals[0]}" is not understood`);
  const given = (flag: unknown, name: string) => (typeof flag === 'string' ? flag : env[name] || undefined);
  const host = given(values.host, 'HOST') ?? 'localhost';
  if (!LOOPBACK.includes(host))
    throw usage(
      `The host "${host}" would let others in: until there are passwords this server answers only on this machine (localhost)`,
    );
  return {
    port: portOf(given(values.port, 'PORT')),
    host,
    data: given(values.data, 'COVERLAST_DATA') ?? defaultFolder(env),
    demo: values['no-demo'] !== true,
  };
}

function checkOption(name: string, rawName: string, value: string | undefined): void {
  if (!Object.hasOwn(OPTIONS, name)) throw usage(`There is no flag ${rawName}`);
  const { type } = OPTIONS[name as keyof typeof OPTIONS];
  if (type === 'string' && (value === undefined || value === ''))
    throw usage(`The flag ${rawName} needs a value`);
  if (type === 'boolean' && value !== undefined) throw usage(`The flag ${rawName} takes no value`);
}

function portOf(text: string | undefined): number {
  if (text === undefined) return DEFAULT_PORT;
  if (/^\d{1,5}$/.test(text) && Number(text) <= 65_535) return Number(text);
  throw usage(`"${text}" is not a port: it must be a number from 0 (any free one) to 65535`);
}

/** Where this system keeps what programs store for a user. */
function defaultFolder(env: Environment): string {
  const named = process.platform === 'win32' ? env['LOCALAPPDATA'] : env['XDG_DATA_HOME'];
  const usual =
    process.platform === 'darwin' ? join('Library', 'Application Support') : join('.local', 'share');
  // A relative one would lie wherever the program happens to be started.
  const base = named !== undefined && isAbsolute(named) ? named : join(homedir(), usual);
  return join(base, 'coverlast');
}

function usage(message: string): PlanError {
  return new PlanError(`${message}. Usage: ${USAGE}`, { code: 'bad-usage', usage: USAGE });
}

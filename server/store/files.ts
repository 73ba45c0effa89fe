/**
 * Photos and receipts as files beside the store, each under the name of what it holds: the same photo twice is one file,
 * and none is ever written over. They are never removed: an undo, a history and a build file in the backups may speak of
 * them, and a build that is taken in again finds its photos.
 */
import { createHash, randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { PlanError } from '#shared/errors.ts';
import type { Store } from './database.ts';

export interface KeptFile {
  /** 64 hex digits. */
  readonly hash: string;
  readonly type: FileType;
}

/** What is taken, by the bytes it begins with: what a browser or a file name says proves nothing. */
const TYPES = [
  { media: 'image/jpeg', ending: 'jpg', isImage: true, begins: (hex: string) => hex.startsWith('ffd8ff') },
  {
    media: 'image/png',
    ending: 'png',
    isImage: true,
    begins: (hex: string) => hex.startsWith('89504e470d0a1a0a'),
  },
  {
    media: 'image/webp',
    ending: 'webp',
    isImage: true,
    begins: (hex: string) => /^52494646.{8}57454250/.test(hex),
  },
  {
    media: 'application/pdf',
    ending: 'pdf',
    isImage: false,
    begins: (hex: string) => hex.startsWith('255044462d'),
  },
] as const;

export type FileType = (typeof TYPES)[number];

const HASH = /^[0-9a-f]{64}$/;

export function typeOf(bytes: Buffer): FileType | null {
  const hex = bytes.toString('hex', 0, 16);
  return TYPES.find(({ begins }) => begins(hex)) ?? null;
}

/**
 * Written beside, forced to the disk, then given its name, so that a file of a name is always whole.
 *
 * @throws PlanError `unsupported-media`, `store-full`, `no-file` where nothing can be written
 */
export function keepFile({ records }: Store, bytes: Buffer): KeptFile {
  const type = typeOf(bytes);
  if (type === null)
    throw new PlanError('This is no photo and no receipt that is read here: send a JPEG, PNG, WebP or PDF.', {
      code: 'unsupported-media',
      media: 'by its first bytes none of image/jpeg, image/png, image/webp, application/pdf',
    });
  const hash = createHash('sha256').update(bytes).digest('hex');
  const folder = folderOf(records, hash);
  const path = join(folder, hash);
  if (existsSync(path)) return { hash, type };
  const beside = join(folder, `.${hash.slice(0, 8)}-${randomBytes(6).toString('hex')}`);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    writeThrough(beside, bytes);
    renameSync(beside, path);
    syncFolder(folder);
  } catch (error) {
    rmSync(beside, { force: true });
    throw asKept(error, folder);
  }
  return { hash, type };
}

/** @returns its bytes; null when there is none of that name */
export function readFile({ records }: Store, hash: string): { bytes: Buffer; type: FileType } | null {
  if (records === null || !HASH.test(hash)) return null;
  const path = join(folderOf(records, hash), hash);
  if (!existsSync(path)) return null;
  const bytes = readFileSync(path);
  const type = typeOf(bytes);
  return type === null ? null : { bytes, type };
}

/** By the first two digits, so that no folder grows beyond what tools like. */
function folderOf(records: string | null, hash: string): string {
  if (records === null) throw new RangeError('a store in memory keeps no files');
  return join(records, hash.slice(0, 2));
}

function writeThrough(path: string, bytes: Buffer): void {
  const file = openSync(path, 'wx', 0o600);
  try {
    for (let at = 0; at < bytes.length;) at += writeSync(file, bytes, at);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** The name itself is forced to the disk too, where the system allows it. */
function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function asKept(error: unknown, folder: string): unknown {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  if (code === 'ENOSPC' || code === 'EDQUOT')
    return new PlanError('There is no room left on the disk: nothing was stored.', { code: 'store-full' });
  if (code === undefined) return error;
  return new PlanError(`The folder ${folder} cannot be written (${code}): nothing was stored.`, {
    code: 'no-file',
    path: folder,
  });
}

/** Stored files (photos, receipts): their addresses, and sending one with its progress, which `fetch` does not tell. */
import { digitsOfFile, MOST_FILE_BYTES } from '#shared/contract/stored-file.ts';
import { CLIENT, Refusal, who } from './api.ts';
import { deedWords } from './what-if-steps.ts';
import { isTrying } from './what-if-store.ts';

/** What may be chosen; the server looks at the bytes. */
export const FILE_KINDS = 'image/jpeg,image/png,image/webp,application/pdf';

/** Null for an old name of a photo that is no stored file. */
export function addressOfFile(build: string, file: string): string | null {
  const digits = digitsOfFile(file);
  return digits === null ? null : `/api/builds/${encodeURIComponent(build)}/files/${digits}`;
}

/** "1.4 MB". */
export function sizeWords(bytes: number): string {
  return bytes < 1024 * 1024
    ? `${Math.max(1, Math.round(bytes / 1024))} kB`
    : `${(bytes / 1024 / 1024).toFixed(1)} MB`;
}

/**
 * @param onpart told the share that is sent, 0 to 1
 * @returns what a record names it by
 * @throws Refusal
 */
export function sendFile(build: string, file: File, onpart: (share: number) => void): Promise<string> {
  if (isTrying(build)) throw new Refusal('deed', deedWords('photo'));
  if (file.size > MOST_FILE_BYTES)
    throw new Refusal(
      'too-large',
      `${file.name} has ${sizeWords(file.size)}: at most ${sizeWords(MOST_FILE_BYTES)} are taken. Make it smaller first.`,
    );
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open('POST', `/api/builds/${encodeURIComponent(build)}/files`);
    request.setRequestHeader('content-type', file.type === '' ? 'application/octet-stream' : file.type);
    request.setRequestHeader('x-client', CLIENT);
    const name = who.get();
    if (name !== null) request.setRequestHeader('x-who', encodeURIComponent(name));
    request.upload.onprogress = ({ loaded, total }) => onpart(total === 0 ? 0 : loaded / total);
    request.onerror = () =>
      reject(new Refusal('unreachable', 'The server cannot be reached: the file was not stored.'));
    request.onload = () => {
      const answer = answerIn(request.responseText);
      if (request.status === 201 && answer.file !== undefined) resolve(answer.file);
      else reject(new Refusal('refused', answer.detail ?? `The server answered ${request.status}.`));
    };
    request.send(file);
  });
}

function answerIn(text: string): { readonly file?: string; readonly detail?: string } {
  try {
    return JSON.parse(text) as { file?: string; detail?: string };
  } catch {
    return {};
  }
}

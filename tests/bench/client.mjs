// A client that costs little, in a thread of its own, so that what is timed is the server: a few sockets kept open, each
// asking again as soon as its answer is in. It is sent rounds (`http.bench.ts`) and sends back milliseconds. Plain
// JavaScript, because a thread starts without the loader for TypeScript.
import { connect } from 'node:net';
import { parentPort } from 'node:worker_threads';

const SOCKETS = 4;
const END = Buffer.from('\r\n\r\n');

parentPort.on('message', ({ port, path, times }) => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
  void ask(port, path, times).then((ms) => parentPort.postMessage(ms));
});

const open = new Map();

async function ask(port, path, times) {
  let sockets = open.get(port);
  if (sockets === undefined)
    open.set(port, (sockets = await Promise.all(Array.from({ length: SOCKETS }, () => dial(port)))));
  const request = `GET ${path} HTTP/1.1\r\nHost: localhost:${port}\r\n\r\n`;
  const from = performance.now();
  let left = times;
  await Promise.all(
    sockets.map(async (socket) => {
      while (left-- > 0) await once(socket, request);
    }),
  );
  return performance.now() - from;
}

function dial(port) {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => resolve(socket.setNoDelay(true)));
    socket.once('error', reject);
  });
}

/** One request, read to the last byte of its answer. @throws Error when it is not 200 */
function once(socket, request) {
  return new Promise((resolve, reject) => {
    let missing = -1;
    let head = Buffer.alloc(0);
    const read = (part) => {
      if (missing === -1) {
        head = head.length === 0 ? part : Buffer.concat([head, part]);
        const end = head.indexOf(END);
        if (end === -1) return;
        const text = head.toString('latin1', 0, end);
        const length = /content-length: (\d+)/i.exec(text)?.[1];
        if (!text.startsWith('HTTP/1.1 200') || length === undefined) return reject(new Error(text));
        missing = Number(length) - (head.length - end - END.length);
      } else missing -= part.length;
      if (missing > 0) return;
      socket.off('data', read);
      resolve();
    };
    socket.on('data', read);
    socket.write(request);
  });
}

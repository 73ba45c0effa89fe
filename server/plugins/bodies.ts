/**
 * Bodies are JSON and nothing else; where one stops being JSON is told by line and column. Values stay what they are:
 * no field is coerced or dropped, and a field called `__proto__` is a field like any other, which no record has.
 */
import fp from 'fastify-plugin';
import { parseJson } from '#shared/contract/read.ts';

export default fp(
  (app) => {
    app.removeAllContentTypeParsers();
    app.addContentTypeParser<string>('application/json', { parseAs: 'string' }, (_request, text, done) => {
      try {
        done(null, parseJson(text.replace(/^\uFEFF/, '')));
      } catch (error) {
        done(error as Error, undefined);
      }
    });
    // What is sent is written as it is: the shapes are our own, and a schema would strip what it does not list.
    app.setSerializerCompiler(() => (value) => JSON.stringify(value));
    return Promise.resolve();
  },
  { name: 'bodies', fastify: '5.x' },
);

/** /api/builds/{build}/files: photos and receipts in and out. What comes out can run nothing, whatever was put in. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import { MOST_FILE_BYTES } from '#shared/contract/stored-file.ts';
import { PlanError } from '#shared/errors.ts';
import { getBuild } from '../store/builds.ts';
import { keepFile, readFile } from '../store/files.ts';
import { pathOf } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

const tags = ['Files'];
const MEDIA = ['image/jpeg', 'image/png', 'image/webp', 'application/pdf'];

const Kept = Type.Object(
  {
    file: Type.String({ description: 'what records point at it with: sha256: and 64 hex digits' }),
    bytes: Type.Integer(),
    type: Type.String({ description: `one of: ${MEDIA.join(', ')}` }),
  },
  { additionalProperties: false },
);

const binary = { schema: { type: 'string', format: 'binary' } };

const files: FastifyPluginCallback = (app, _options, done) => {
  app.removeAllContentTypeParsers();
  // What it is called proves nothing: the bytes are looked at.
  app.addContentTypeParser('*', { parseAs: 'buffer' }, (_request, body, parsed) => parsed(null, body));

  app.post<{ Params: { build: string }; Body: unknown }>(
    '/:build/files',
    {
      bodyLimit: MOST_FILE_BYTES,
      schema: {
        tags,
        summary: 'Store a photo or a receipt',
        description:
          'The body is the file itself: JPEG, PNG, WebP or PDF, told by its first bytes. The same file twice is stored once. It belongs to nothing until a record, a check or a purchase names it.',
        params: pathOf('build'),
        consumes: MEDIA,
        body: { type: 'string', format: 'binary', description: 'the bytes of the file' },
        response: { 201: Kept, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const { id } = getBuild(app.store.db, request.params.build);
      const body = Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0);
      const { hash, type } = keepFile(app.store, body);
      void reply.code(201).header('location', `/api/builds/${id}/files/${hash}`);
      return { file: `sha256:${hash}`, bytes: body.length, type: type.media };
    },
  );

  app.get<{ Params: { build: string; file: string } }>(
    '/:build/files/:file',
    {
      schema: {
        tags,
        summary: 'A stored photo or receipt',
        params: pathOf('build', 'file'),
        response: {
          200: {
            description: 'the file, as it was stored',
            content: Object.fromEntries(MEDIA.map((media) => [media, binary])),
          },
          ...PROBLEM_RESPONSES,
        },
      },
    },
    (request, reply) => {
      const { build, file } = request.params;
      getBuild(app.store.db, build);
      const found = readFile(app.store, file);
      if (found === null)
        throw new PlanError('There is no stored file of that name.', {
          code: 'not-found',
          what: 'file',
          id: file,
        });
      const { media, ending, isImage } = found.type;
      return reply
        .type(media)
        .headers({
          'content-security-policy': "default-src 'none'; sandbox",
          'content-disposition': `${isImage ? 'inline' : 'attachment'}; filename="${file.slice(0, 12)}.${ending}"`,
          'cache-control': 'private, max-age=31536000, immutable',
        })
        .send(found.bytes);
    },
  );
  done();
};
export default files;

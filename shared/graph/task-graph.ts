/**
 * The task graph as it is edited and explained: a graphlib multigraph of tasks and gates, each edge labelled with
 * where it comes from. Passes run on its compiled arrays (`compile.ts`), never on this.
 */
import { Graph } from '@dagrejs/graphlib';
import type { BuildFile } from '../contract/build-file.ts';
import type { Link } from '../contract/task.ts';
import { coverGraph, type CoverLink } from '../covers/cover-links.ts';
import { Exceptions } from '../covers/exceptions.ts';
import { stacksOf, type Stack } from '../covers/stacks.ts';

/** Where an edge comes from: the builder stated it, or it follows from places. */
export type Origin = { readonly stated: Link } | { readonly cover: CoverLink };

/** graphlib keeps nodes in plain objects, so its ids get a prefix: a task may well be called "constructor". */
export type NodeLabel = { readonly task: string } | { readonly gate: string };

export interface TaskGraph {
  /** Node labels say which task or gate, edge labels where the edge comes from. */
  readonly graph: Graph<unknown, NodeLabel, Origin>;
  readonly stacks: readonly Stack[];
  readonly exceptions: Exceptions;
}

export function taskGraph(file: BuildFile): TaskGraph {
  const graph = new Graph<unknown, NodeLabel, Origin>({ directed: true, multigraph: true });
  const stacks = stacksOf(file);
  const exceptions = new Exceptions(file.exceptions);
  for (const { key } of file.tasks) graph.setNode(nodeId(key), { task: key });
  const covers = coverGraph(stacks, exceptions);
  for (const gate of covers.gates) graph.setNode(nodeId(gate), { gate });
  for (const link of covers.links)
    graph.setEdge(nodeId(link.from), nodeId(link.to), { cover: link }, `cover ${link.zone}`);
  for (const link of file.links)
    graph.setEdge(nodeId(link.from), nodeId(link.to), { stated: link }, link.kind);
  return { graph, stacks, exceptions };
}

/** The node of a task key or gate id. */
export function nodeId(key: string): string {
  return `#${key}`;
}

/** The task key or gate id of a node. */
export function keyOf(node: string): string {
  return node.slice(1);
}

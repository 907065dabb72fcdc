import type { Command } from 'commander';

/** In the order of the help. The build makes a script for each, so that a command loads only its own code. */
export const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  new: async () => (await import('./commands/new-command.ts')).makeCommand(),
  show: async () => (await import('./commands/show-command.ts')).makeCommand(),
  print: async () => (await import('./commands/print-command.ts')).makeCommand(),
  draw: async () => (await import('./commands/draw-command.ts')).makeCommand(),
  offsets: async () => (await import('./commands/offsets-command.ts')).makeCommand(),
  batten: async () => (await import('./commands/batten-command.ts')).makeCommand(),
  stock: async () => (await import('./commands/stock-command.ts')).makeCommand(),
  saw: async () => (await import('./commands/saw-command.ts')).makeCommand(),
  card: async () => (await import('./commands/card-command.ts')).makeCommand(),
  check: async () => (await import('./commands/check-command.ts')).makeCommand(),
  'take-off': async () => (await import('./commands/take-off-command.ts')).makeCommand(),
  page: async () => (await import('./commands/page-command.ts')).makeCommand(),
  printer: async () => (await import('./commands/printer-command.ts')).makeCommand(),
};

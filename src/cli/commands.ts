import type { Command } from 'commander';

/**
 * The commands, in the order of the list of help. Each module exports `makeCommand`. The build makes one script of each
 * command, so that no command waits for the code of the others.
 */
export const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  new: async () => (await import('./new.ts')).makeCommand(),
  show: async () => (await import('./show.ts')).makeCommand(),
  print: async () => (await import('./print.ts')).makeCommand(),
  draw: async () => (await import('./draw.ts')).makeCommand(),
  offsets: async () => (await import('./offsets.ts')).makeCommand(),
  batten: async () => (await import('./batten.ts')).makeCommand(),
  stock: async () => (await import('./stock.ts')).makeCommand(),
  saw: async () => (await import('./saw.ts')).makeCommand(),
  card: async () => (await import('./card.ts')).makeCommand(),
  check: async () => (await import('./check.ts')).makeCommand(),
  'take-off': async () => (await import('./take-off.ts')).makeCommand(),
  page: async () => (await import('./page.ts')).makeCommand(),
  printer: async () => (await import('./printer.ts')).makeCommand(),
};

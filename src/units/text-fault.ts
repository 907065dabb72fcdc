import { Fault } from './fault.ts';
import { quoted } from './quoted.ts';

/** Makes a fault of typed text: what is wrong, then what to do. */
export type MakeTextFault = (code: string, wrong: string, cure: string) => Fault;

export function textFaultMaker(subject: 'length' | 'angle' | 'graduation', text: string): MakeTextFault {
  return (code, wrong, cure) => new Fault(`${subject}.${code}`, `${quoted(text)} ${wrong}. ${cure}.`);
}

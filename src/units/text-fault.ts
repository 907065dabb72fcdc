import { Fault } from './fault.ts';
import { quoted } from './quoted.ts';

/** Makes the fault about one piece of typed text: what is wrong with it, then what would be right. */
export type MakeTextFault = (code: string, wrong: string, cure: string) => Fault;

/** The faults of what was typed for a length, an angle or a graduation: "length.empty" and so on. */
export function textFaultMaker(subject: 'length' | 'angle' | 'graduation', text: string): MakeTextFault {
  return (code, wrong, cure) => new Fault(`${subject}.${code}`, `${quoted(text)} ${wrong}. ${cure}.`);
}

import { test } from 'vitest';
import { samplePart } from '../../part/jobs.ts';
import { joinByRings } from '../joined-by-rings.ts';

test('sheets joined by the rings seen in their pictures show the line of a stretcher where one great sheet has it', () =>
  joinByRings(samplePart('hall-bench-stretcher.yaml')));

import { test } from 'vitest';
import { backLeg } from '../../tiling/parts.ts';
import { joinByRings } from '../joined-by-rings.ts';

test('sheets joined by the rings seen in their pictures show the line of a back leg where one great sheet has it', () =>
  joinByRings(backLeg()));

import { describe, expect, test } from 'vitest';
import {
  ALLOWANCE_KEYS,
  END_KEYS,
  FOOT_OUT_KEYS,
  JOB_KEYS,
  LAMINATE_KEYS,
  PARALLEL_KEYS,
  STANDS_KEYS,
  STOCK_KEYS,
} from '../../src/job/job-keys.ts';
import { JOINT_KINDS, JOINT_NAMES } from '../../src/job/joints/joint-kinds.ts';
import { STEP_NAMES, stepKeys } from '../../src/job/steps/step-kinds.ts';
import { partOf, sampleText } from '../part/jobs.ts';
import { blocksOf, pageNamed, withoutBlocks } from './pages.ts';

describe('the job file, told', () => {
  const page = pageNamed('job-file.md');

  test('every key that a job may hold is there', () => {
    const vocabularies = [
      JOB_KEYS,
      STOCK_KEYS,
      ALLOWANCE_KEYS,
      END_KEYS,
      PARALLEL_KEYS,
      LAMINATE_KEYS,
      STANDS_KEYS,
      FOOT_OUT_KEYS,
    ];
    const ofSteps = STEP_NAMES.flatMap(stepKeys);
    const ofJoints = Object.values(JOINT_KINDS).flatMap(({ keys }) => keys);
    const known = [...vocabularies.flat(), ...STEP_NAMES, ...ofSteps, ...JOINT_NAMES, ...ofJoints];
    const quoted = [...withoutBlocks(page).matchAll(/`([^`]+)`/g)].map(([, code]) => code).join(' ');
    expect(known.filter((key) => !new RegExp(`(?<![\\w-])${key}(?![\\w-])`).test(quoted))).toEqual([]);
  });

  test('its jobs can be made: the sample leg, its ends and joints, arches sawn and bent, a leg that stands', () => {
    const [job, parallel, laminated, beside, standing] = blocksOf(page, 'yaml');
    expect(partOf(job!).shape).toEqual(partOf(sampleText('hall-bench-leg.yaml')).shape);
    expect(partOf(`${job}\n${beside}`).joints).toHaveLength(2);
    expect(partOf(`part: Arch\nunits: in\n${parallel}`).edges[1]!.parallel).toEqual({
      to: 'inside',
      by: 44.45,
    });
    expect(partOf(laminated!).laminate).toEqual({ plies: 14, form: 'below', springback: 4 });
    expect(partOf(`${job!.replace('front:', 'outer:')}\n${standing}`).ends).toHaveLength(2);
  });
});

import type { LeadReason } from '../../analysis/electrical.ts';
import type { Fix } from '../../base/finding.ts';
import type { Lead } from '../../model/step.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { joined, name } from '../wording.ts';
import { circumstances, type Judged, type Outcome } from './judged.ts';
import { whereReading } from './step-problems.ts';

const endings = `
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`;

export const leadInsidePlug: Rule = {
  id: 'lead-inside-plug',
  severity: 'warning',
  group: 'circuit',
  on: 'procedure',
  title: 'A lead put where a mated plug covers the terminal',
  explanation: `
The terminal is inside a plug that is on. A lead reaches it only from behind, along the wire, and a technician who is not told so either
pulls the plug (and measures another circuit) or pushes a probe into the seal.

Write \`(back-probe)\` behind the point, or take the plug off with \`disconnect\` and say on which side the lead goes. Terminals on studs
are named under \`studs\` in the system file.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: X1/1
#        ^^^^ warning lead-inside-plug: \`X1/1\` is inside a plug that is on [fix]
    black: GND-1
    limits: 11.5 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: X1/1 (back-probe)
    black: GND-1
    limits: 11.5 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  check: whereReading('no contact', (judged, all) =>
    leadFinding(judged, all[0], 'mated', ({ connector }, lead) => ({
      rule: 'lead-inside-plug',
      place: lead.point.place,
      message: `${name(lead.point.text)} is inside a plug that is on`,
      detail: `${circumstances(all, judged.view)} ${name(connector)} is together.`,
      help: 'Write `(back-probe)` behind the point, or disconnect the plug in this step.',
      fixes: [rewrite(lead, lead.side ? `${lead.side.text} side, back-probe` : 'back-probe')],
    })),
  ),
};

export const leadSideMissing: Rule = {
  id: 'lead-side-missing',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'A plug that is apart, and no word on which half the lead goes to',
  explanation: `
With the plug apart the two halves are different points: one leads to the part, the other into the harness. The reading is another one on
each of them.

Name the half behind the point: \`X12/3 (S6 side)\` for the one whose wire leads to S6, and at a part \`(part side)\` or \`(harness side)\`.`,
  bad: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/2
#        ^^^^ error lead-side-missing: \`X1/2\` has two halves here and the step names none [fix]
    black: GND-1
    limits: below 2 Ω
    then: { within: not-found, otherwise: ask-the-maker }${endings}`),
  good: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/2 (GND-1 side)
    black: GND-1
    limits: below 2 Ω
    then: { within: not-found, otherwise: ask-the-maker }${endings}`),
  check: whereReading('no contact', (judged, all) =>
    leadFinding(judged, all[0], 'which side', ({ sides }, lead) => ({
      rule: 'lead-side-missing',
      place: lead.point.place,
      message: `${name(lead.point.text)} has two halves here and the step names none`,
      detail: `${circumstances(all, judged.view)} the plug is apart: one half leads to ${joined(
        sides.map(s => name(s)),
        'and the other to',
      )}.`,
      help: 'Name the half behind the point.',
      fixes: sides.map(side => rewrite(lead, `${side} side`)),
    })),
  ),
};

export const leadSideUnknown: Rule = {
  id: 'lead-side-unknown',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'A half of a plug that does not exist',
  explanation: `
The name in front of \`side\` must be what lies that way: a part, ground or splice at the end of the wire, or another connector that the wire
passes. At a part's own plug the halves are called \`part side\` and \`harness side\`.`,
  bad: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/2 (F1 side)
#              ^^ error lead-side-unknown: No half of \`X1/2\` leads to \`F1\` [fix]
    black: GND-1
    limits: below 2 Ω
    then: { within: not-found, otherwise: ask-the-maker }${endings}`),
  good: leadSideMissing.good,
  check: whereReading('no contact', (judged, all) =>
    leadFinding(judged, all[0], 'unknown side', ({ sides }, lead) => ({
      rule: 'lead-side-unknown',
      place: lead.side?.place ?? lead.point.place,
      message: `No half of ${name(lead.point.text)} leads to ${name(lead.side?.text ?? '')}`,
      detail: `Its halves lead to ${joined(sides.map(s => name(s)))}.`,
      help: 'Name what lies that way.',
      fixes: sides.map(side => rewrite(lead, `${side} side`)),
    })),
  ),
};

export const pointNotInVariant: Rule = {
  id: 'point-not-in-variant',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'A lead at a point that this variant does not have',
  explanation: `
The part, pin or connector exists, but not in every variant that this step is for. In the others a technician looks for a terminal that is
not there.

Limit the step with \`only\`, or give the lead of the other variant under \`by variant\`.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: R1.1
#        ^^^^ error point-not-in-variant: Variant \`plain\` has no \`R1.1\`
    black: GND-1
    limits: 11 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`).replace('lamp.system', 'lamp-variants.system'),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: S1.2 (back-probe)
    black: GND-1
    limits: 11 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`).replace('lamp.system', 'lamp-variants.system'),
  check: whereReading('no contact', (judged, all) =>
    leadFinding(judged, all[0], 'not in this variant', (_, lead) => ({
      rule: 'point-not-in-variant',
      place: lead.point.place,
      message: `Variant ${name(all[0].one.variant)} has no ${name(lead.point.text)}`,
      detail: `${name(judged.step.id)} is done in this variant as well.`,
      help: 'Limit the step with `only`, or write another lead under `by variant`.',
    })),
  ),
};

type Reason<K extends LeadReason['kind']> = Extract<LeadReason, { kind: K }>;

function leadFinding<K extends LeadReason['kind']>(
  { action }: Judged,
  { reading }: Outcome,
  kind: K,
  make: (reason: Reason<K>, lead: Lead) => Finding,
): Finding | undefined {
  if (reading.state !== 'no contact' || reading.lead === 'around' || action.verb !== 'measure') return undefined;
  const lead = action[reading.lead];
  return lead && reading.reason.kind === kind ? make(reading.reason as Reason<K>, lead) : undefined;
}

function rewrite(lead: Lead, remark: string): Fix {
  const text = `${lead.point.text} (${remark})`;
  return { title: `Write \`${text}\``, edits: [{ place: lead.place, text }] };
}

/** The job that `fairlath new` writes: a bench apron that uses every key of a job. */
export const STARTER_JOB = `# A job for fairlath: the apron of a hall bench. Change it to your own part.
#
# The part is in front of you. Measure stations along the reference line, from the left end.
# Measure offsets square to the reference line. A point is [station, offset].
# Write lengths as on a rule: 28 3/4, 28-3/4", 2' 4 1/2", 730 mm, 73 cm.
# A number without a unit is in "units". Text after # is a comment. Indent with spaces.

part: Bench apron                 # the name on every sheet
units: in                         # in or mm
graduation: 1/32                  # finest mark on your rule
quantity: 2                       # number of parts
pair: identical                   # or mirrored: half of the parts are mirrored

stock:                            # the board; you can omit any of these
  species: white oak
  length: 46
  width: 5
  thickness: 7/8
  layers: 1                       # boards glued together for this thickness

# laminate: {plies: 7}           # bend the part from plies over a form, instead of sawing it

edges:                            # one edge: a curve. Two: a closed part. You choose the names
  top:
    - from: [0, 4 1/2]            # where the edge starts, at its left end
    - line: [44, 4 1/2]           # each step: its kind and its end point
  bottom:
    - from: [0, 0]
    - line: [6, 0]                # straight at the leg
    - batten: [38, 0]             # a batten, free at both ends
      through: [20, 1 1/4]        # the nail; if it is off the middle, the apex is elsewhere
      # apex: [22, 1 1/4]         # or, instead of through, its highest point
      # through: [[14, 1], [24, 1]] # or several nails
      # ends: [held, free]        # held: in line with the edge next to it
      # strip: {from: 1/4, to: 1/8} # tapered, from start to end; one nail only
    - line: [44, 0]
    # A line from [6, 0] to [6, 1/4] is a shoulder: a step square to the reference line.
    # Other steps:
    # - arc: [38, 0]              # part of a circle; give one of these three:
    #   rise: 1 1/4               #   its rise above the chord; negative: below it
    #   radius: 103               #   or its radius; negative: curved downward
    #   through: [22, 1 1/4]      #   or a point on it
    # - bow: [38, 0]              # a batten bent by a string between its ends
    #   rise: 1 1/4
    # - ellipse: [38, 0]          # half an ellipse on its chord
    #   rise: 1 1/4
    # - spline: [38, 0]           # a drafting curve through any number of points
    #   through: [[16, 1], [28, 1]]
    #   ends: natural             # natural, held, or one for each end: [natural, held]

ends:                             # the cuts at the ends; edges go to the long point
  left: square
  right: square                   # or saw angles in degrees: {miter: 6, bevel: 4}
                                  # or leg angles: {rake: 6, splay: 4}. Positive miter or rake: the
                                  # cut is closer to the left end at larger offsets. Positive bevel
                                  # or splay: it is closer to the left end at the reference face

joints:                           # on the reference face: "at" is the station, "out" the offset
  - mortise: {at: 12, out: 3 5/8, length: 1 1/2, width: 1/4, depth: 3/8, label: button}
  - mortise: {at: 32, out: 3 5/8, length: 1 1/2, width: 1/4, depth: 3/8, label: button}
  # turn: 5                       # rotated, degrees; without a depth it goes through the wood
  # - slot: {at: 12, out: 3 5/8, length: 1 1/2, width: 1/4}   # round ends
  # - hole: {at: 2, out: 2, diameter: 3/8, lean: 2, toward: right} # toward left, right, out or in
  # - center-line: {at: 22}       # across the part; {out: 2}: along it
  # - mark: {at: 6, label: leg}   # a line across; with "out" a cross

allowance:
  saw: 1/16                       # the saw line is this far outside the finished line
  width: 1/8                      # extra width of the blank

notes: Grain along the apron. Mark the reference face before sawing.
`;

package bellwire.agent.board;

import bellwire.agent.chip.InputLine;
import bellwire.agent.chip.OutputLine;

/**
 * The board's single lines.
 *
 * @param dataReady low: a conversion is ready
 * @param interlockTripped high: the latch is set
 * @param interlockOutside high: a port is outside the window at this moment
 * @param heartbeat edges keep the relays fed
 * @param rearm a rising edge clears the latch
 * @param eventCapture a rising edge takes the event path over into its registers
 */
public record Lines(
    InputLine dataReady,
    InputLine interlockTripped,
    InputLine interlockOutside,
    OutputLine heartbeat,
    OutputLine rearm,
    OutputLine eventCapture) {}

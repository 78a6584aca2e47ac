package bellwire.simbench;

/**
 * What the event path's comparators and latches meet, behind the connect relays. The chips stand on
 * one side of this interface, the wetted cable on the other. Times are nanoseconds of the {@link
 * VirtualClock} and never run backwards. Bit 0 is P1, bit 15 P16.
 */
public interface EventSide {

  /** No cable, and comparators that never turn. */
  EventSide NONE =
      new EventSide() {
        @Override
        public void events(boolean wetting, boolean touch, long nanos) {}

        @Override
        public void latchChain(long word, long nanos) {}

        @Override
        public void capture(long nanos) {}

        @Override
        public int word() {
          return 0;
        }

        @Override
        public int latches() {
          return 0;
        }
      };

  /**
   * The event expander's outputs.
   *
   * @param wetting asked for; on as long as the interlock's latch lets it
   * @param touch whether the latches look for ports below the threshold, not above it
   */
  void events(boolean wetting, boolean touch, long nanos);

  /**
   * The crosspoint chain's outputs after a latch edge, bits as in the board description. Each holds
   * the latches in reset for the blind time, also where no bit changed.
   */
  void latchChain(long word, long nanos);

  /** A rising edge of the capture line: both registers are loaded, then the latches reset. */
  void capture(long nanos);

  /** The first register: ports that stood above the threshold at the last capture edge. */
  int word();

  /**
   * The second register: ports that were on the side looked for at any time between the last two
   * capture edges, the blind times left out.
   */
  int latches();
}

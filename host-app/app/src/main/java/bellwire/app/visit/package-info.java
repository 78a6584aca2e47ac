/** What a visit can do: the services behind the command line and the desk alike. */
@org.jspecify.annotations.NullMarked
package bellwire.app.visit;

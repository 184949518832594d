using System.Net;
using System.Net.Sockets;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>
/// Ports for servers that must know theirs before they listen, or come back on the same one. A free port asked of the system would
/// be given to the next connection that asks for one, so these lie below the range it gives out: 32768 and up on Linux
/// (net.ipv4.ip_local_port_range), 49152 and up elsewhere (RFC 6335, section 6).
/// </summary>
internal static class LoopbackPort
{
    private const int First = 20000;
    private const int End = 32768;

    // Held until the process ends, so that test programs that run side by side choose different ones.
    private static readonly List<FileStream> Claims = [];

    static LoopbackPort() => AppDomain.CurrentDomain.ProcessExit += (_, _) => Claims.ForEach(claim => claim.Dispose());

    /// <summary>A port nobody listens on, and no other test program will.</summary>
    public static int Claim()
    {
        while (true)
        {
            var port = Random.Shared.Next(First, End);
            try
            {
                var claim = new FileStream(
                    Path.Combine(Path.GetTempPath(), $"hfb-port-{port}"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
                lock (Claims)
                {
                    Claims.Add(claim);
                }

                using var listener = new TcpListener(IPAddress.Loopback, port);
                listener.Start();
                return port;
            }
            catch (Exception taken) when (taken is IOException or UnauthorizedAccessException or SocketException)
            {
                // By another program: the next one.
            }
        }
    }
}

using System.Net.Sockets;
using Microsoft.AspNetCore.Connections;
using RepairShop.Services.Database;

namespace RepairShop.Web.Hosting;

/// <summary>What to say on the console when the program can't start, for the cases a person can put right.</summary>
internal static class StartFailure
{
    public static string? Sentence(Exception exception, StartOptions start) => exception switch
    {
        IOException { InnerException: AddressInUseException } =>
            $"Port {start.Port} is already used by another program: stop that one, or choose another with --port {start.Port + 1}.",
        IOException { InnerException: SocketException { SocketErrorCode: SocketError.AccessDenied } } =>
            $"Port {start.Port} may not be opened by this user: choose one above 1023 with --port.",
        IOException { InnerException: SocketException { SocketErrorCode: SocketError.AddressNotAvailable } } =>
            $"This machine has no address {start.Listen}: use --listen with one of its own, or leave it out.",
        UnauthorizedAccessException denied => $"The data folder can't be used: {denied.Message} Choose another with --data.",
        _ => DatabaseStartFailure.Sentence(exception),
    };
}

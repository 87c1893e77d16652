using System.Net;
using System.Net.Sockets;
using System.Text;

namespace ScheduleOpt.Service.Tests.Hosting;

/// <summary>What only a real socket shows.</summary>
public sealed class OverTheWireTests
{
    [Fact]
    public async Task Answer_OverASocket_NamesNoServer()
    {
        await using var app = ServiceHost.Build(["--urls", "http://127.0.0.1:0"]);
        await app.StartAsync();
        using var client = new HttpClient { BaseAddress = new Uri(Assert.Single(app.Urls)) };
        var response = await client.GetAsync("/health/live");
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Empty(response.Headers.Server);
        await app.StopAsync();
    }

    [Fact]
    public async Task Request_WithoutHost_Is400()
    {
        await using var app = ServiceHost.Build(["--urls", "http://127.0.0.1:0"]);
        await app.StartAsync();
        using var socket = new TcpClient();
        await socket.ConnectAsync(IPAddress.Loopback, new Uri(Assert.Single(app.Urls)).Port);
        var stream = socket.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes("GET /health/live HTTP/1.1\r\nConnection: close\r\n\r\n"));
        using var reader = new StreamReader(stream, Encoding.ASCII);
        Assert.StartsWith("HTTP/1.1 400", await reader.ReadToEndAsync(), StringComparison.Ordinal);
        await app.StopAsync();
    }
}

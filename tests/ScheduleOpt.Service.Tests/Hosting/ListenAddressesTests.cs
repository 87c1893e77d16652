using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Tests.Hosting;

public sealed class ListenAddressesTests
{
    [Theory]
    [InlineData("http://127.0.0.1:5080")]
    [InlineData("http://[::1]:5080")]
    [InlineData("http://localhost:5080")]
    [InlineData("http://127.0.0.2:0")]
    public void Address_OfThisMachine_IsLoopback(string address) => Assert.True(ListenAddresses.IsLoopback(address));

    [Theory]
    [InlineData("http://0.0.0.0:5080")]
    [InlineData("http://*:5080")]
    [InlineData("http://+:5080")]
    [InlineData("http://[::]:5080")]
    [InlineData("http://192.168.1.7:5080")]
    [InlineData("http://hub.example:5080")]
    public async Task Address_ReachableByOthersWithoutKey_IsRefused(string address)
    {
        var refused = Assert.Throws<ServiceRefusedException>(() => ServiceHost.Build(["--urls", $"http://127.0.0.1:0;{address}"]));
        Assert.Contains(address, refused.Message, StringComparison.Ordinal);
        Assert.Equal(1, await ServiceHost.RunAsync(["--urls", address]));
    }

    [Fact]
    public void Address_InKestrelEndpointsWithoutKey_IsRefused() => Assert.Throws<ServiceRefusedException>(
        () => ServiceHost.Build(["--Kestrel:Endpoints:Http:Url", "http://0.0.0.0:5080"]));

    [Fact]
    public async Task Address_ReachableByOthersWithKey_IsAccepted()
    {
        await using var app = ServiceHost.Build(["--urls", "http://0.0.0.0:0", "--ScheduleOpt:ApiKey", "0123456789abcdef01234567"]);
        await app.StartAsync();
        Assert.Contains("0.0.0.0", Assert.Single(app.Urls), StringComparison.Ordinal);
        await app.StopAsync();
    }

    [Fact]
    public void Key_TooShort_IsRefused() => Assert.Throws<ServiceRefusedException>(
        () => ServiceHost.Build(["--ScheduleOpt:ApiKey", "short"]));

    [Fact]
    public async Task Address_NotGiven_IsLoopbackAlone()
    {
        // HTTP_PORTS is what container images set; it would listen on every address.
        await using var app = ServiceHost.Build(["--HTTP_PORTS", "5999"]);
        Assert.Equal(ListenAddresses.Default, app.Configuration["urls"]);
    }
}

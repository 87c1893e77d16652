using Microsoft.Extensions.Configuration;
using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Tests.Hosting;

public sealed class SolveGateTests
{
    [Fact]
    public async Task Gate_Full_LetsOneWaitAndTurnsTheNextAway()
    {
        using var gate = new SolveGate(Settings(("Limits:SolvesAtOnce", "1"), ("Limits:SolvesWaiting", "1")));
        using var first = await gate.EnterAsync(CancellationToken.None);
        var second = gate.EnterAsync(CancellationToken.None);
        using var third = await gate.EnterAsync(CancellationToken.None);
        Assert.True(first.IsAcquired);
        Assert.False(second.IsCompleted);
        Assert.False(third.IsAcquired);

        first.Dispose();
        using var entered = await second;
        Assert.True(entered.IsAcquired);
    }

    [Fact]
    public async Task Gate_WithoutSettings_LetsAsManySolvesRunAsThereAreCores()
    {
        using var gate = new SolveGate(Settings(("Limits:SolvesWaiting", "0")));
        for (var i = 0; i < Environment.ProcessorCount; i++)
        {
            Assert.True((await gate.EnterAsync(CancellationToken.None)).IsAcquired);
        }

        Assert.False((await gate.EnterAsync(CancellationToken.None)).IsAcquired);
    }

    private static IConfiguration Settings(params (string Name, string Value)[] settings) => new ConfigurationBuilder()
        .AddInMemoryCollection(settings.Select(s => KeyValuePair.Create(s.Name, (string?)s.Value)))
        .Build();
}

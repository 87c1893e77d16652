using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Serilog.Core;
using Serilog.Events;

namespace ScheduleOpt.Service.Tests.Hosting;

public sealed class RequestLogTests : ILogEventSink
{
    private readonly List<LogEvent> events = [];

    void ILogEventSink.Emit(LogEvent logEvent)
    {
        lock (events)
        {
            events.Add(logEvent);
        }
    }

    [Fact]
    public async Task Request_Answered_LeavesOneLineWithoutQuery()
    {
        using var service = new ServiceApplication
        {
            Configure = builder => builder.ConfigureTestServices(services => services.AddSingleton<ILogEventSink>(this)),
        };
        await service.CreateClient().GetAsync("/v1/nothing?token=secret-in-a-query");

        var line = Assert.Single(events, e => e.Properties.ContainsKey("RequestPath") && e.Properties.ContainsKey("Elapsed"));
        Assert.Equal("\"GET\"", line.Properties["RequestMethod"].ToString());
        Assert.Equal("\"/v1/nothing\"", line.Properties["RequestPath"].ToString());
        Assert.Equal("404", line.Properties["StatusCode"].ToString());
        Assert.NotNull(line.TraceId);
        Assert.DoesNotContain(events, e => e.RenderMessage().Contains("secret-in-a-query", StringComparison.Ordinal)
            || e.Properties.Values.Any(v => v.ToString().Contains("secret-in-a-query", StringComparison.Ordinal)));
    }
}

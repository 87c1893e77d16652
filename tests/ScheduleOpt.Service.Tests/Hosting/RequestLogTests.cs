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

        // The line is written when the answer has left, which the client may notice first.
        var line = await Line();
        Assert.Equal("\"GET\"", line.Properties["RequestMethod"].ToString());
        Assert.Equal("\"/v1/nothing\"", line.Properties["RequestPath"].ToString());
        Assert.Equal("404", line.Properties["StatusCode"].ToString());
        Assert.NotNull(line.TraceId);
        Assert.DoesNotContain(Events(), e => e.RenderMessage().Contains("secret-in-a-query", StringComparison.Ordinal)
            || e.Properties.Values.Any(v => v.ToString().Contains("secret-in-a-query", StringComparison.Ordinal)));
    }

    private LogEvent[] Events()
    {
        lock (events)
        {
            return [.. events];
        }
    }

    private async Task<LogEvent> Line()
    {
        for (var i = 0; i < 100; i++)
        {
            if (Events().SingleOrDefault(e => e.Properties.ContainsKey("RequestPath") && e.Properties.ContainsKey("Elapsed")) is { } line)
            {
                return line;
            }

            await Task.Delay(50);
        }

        throw new TimeoutException("No line for the request.");
    }
}

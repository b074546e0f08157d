# Two stages: the first installs the hashed lock, the second holds nothing but what runs.
FROM python:3.12-slim-bookworm AS build

COPY deploy/requirements.lock /build/requirements.lock
RUN python -m venv --without-pip /opt/venv \
 && python -m pip --python /opt/venv/bin/python install --no-cache-dir --no-compile \
    --disable-pip-version-check --require-hashes --only-binary=:all: -r /build/requirements.lock

COPY service /opt/venv/lib/python3.12/site-packages/service
COPY openapi/openapi.json /opt/venv/lib/python3.12/site-packages/service/openapi.json
# Bytecode checked by nothing at start and free of time stamps: two builds give the same bytes.
RUN python -m compileall -q --invalidation-mode unchecked-hash /opt/venv/lib/python3.12/site-packages


FROM python:3.12-slim-bookworm

ARG REVISION=unknown
LABEL org.opencontainers.image.title="backup-power-design-service" \
      org.opencontainers.image.description="Stateless REST API that designs residential battery backup systems for US homes" \
      org.opencontainers.image.version="0.2.0" \
      org.opencontainers.image.revision="${REVISION}" \
      org.opencontainers.image.licenses="Apache-2.0"

# One worker and one thread of numpy a container: the cluster scales by containers.
ENV PATH=/opt/venv/bin:$PATH \
    PYTHONDONTWRITEBYTECODE=1 \
    PYTHONUNBUFFERED=1 \
    OMP_NUM_THREADS=1 \
    OPENBLAS_NUM_THREADS=1 \
    BACKUP_POWER_HOST=0.0.0.0

COPY --from=build /opt/venv /opt/venv

# A number, so that a cluster can see that it is not root. Nothing is ever written to disk.
USER 10001:10001
WORKDIR /
EXPOSE 8080
STOPSIGNAL SIGTERM
ENTRYPOINT ["/opt/venv/bin/python", "-m", "service", "serve"]
